// The result month by month.
#include <fmt/format.h>

#include <algorithm>

#include "reports/table.h"
#include "reports/year/parts.h"

namespace nonrunner::reports::year_sheets {

Money result_of(const YearMonth& m) {
  return m.sales - m.cost_of_sales - m.selling_costs + m.other_income - m.late_cost - m.overhead - m.tools -
         m.looking;
}

namespace {
enum : std::uint16_t { name, sales, cost_of_sales, selling, other, late, overhead, tools, looking, result };

bool anything_sold(const YearMonth& m) { return !is_zero(m.sales) || !is_zero(m.cost_of_sales); }
}  // namespace

void write_months(Parts& parts) {
  const YearFigures& f = parts.figures;
  Sheet& sheet = *parts.months;
  constexpr std::uint32_t picture = 3, picture_rows = 15;
  const bool sold = std::any_of(f.months.begin(), f.months.end(), anything_sold);
  const std::uint32_t heading =
      sold ? picture + picture_rows + 1 : picture;  // nothing to draw without a sale
  sheet.landscape();
  sheet.one_page();
  Table table(sheet, heading,
              {{"Month", 12, look::month},
               {"Sales", 14, look::money, summed},
               {"Cost of sales", 14, look::money, summed},
               {"Selling costs", 14, look::money, summed},
               {"Other income", 14, look::money, summed},
               {"Late cost", 14, look::money, summed},
               {"Overhead", 14, look::money, summed},
               {"Tools", 14, look::money, summed},
               {"Looking", 14, look::money, summed},
               {"Result", 14, look::money, summed}});
  sheet.text({0, 0}, fmt::format("Month by month, {}", f.year), look::title);
  sheet.across({1, 0}, 10,
               "Before own hours, which are no cost in the books. Looking: costs of cars that were looked at "
               "and left.",
               look::note);
  for (const YearMonth& m : f.months) {
    table.row();
    table.day(name, m.first);
    for (const auto& [col, amount] :
         {std::pair(sales, m.sales), std::pair(cost_of_sales, m.cost_of_sales),
          std::pair(selling, m.selling_costs), std::pair(other, m.other_income), std::pair(late, m.late_cost),
          std::pair(overhead, m.overhead), std::pair(tools, m.tools), std::pair(looking, m.looking)})
      table.money(col, amount);
    table.money(result,
                parts.rounded(table.in(sales) + "-" + table.in(cost_of_sales) + "-" + table.in(selling) +
                              "+" + table.in(other) + "-" + table.in(late) + "-" + table.in(overhead) + "-" +
                              table.in(tools) + "-" + table.in(looking)),
                result_of(m));
  }
  const std::uint32_t sums = table.close("in all", "no month yet").row;
  const auto sum = [&](std::uint16_t column) { return sheet.at({sums, column}); };
  const auto all = [&](std::uint16_t column) { return sheet.at(table.first(column), table.last(column)); };
  parts.month_sum = {sum(sales),    sum(cost_of_sales), sum(selling), sum(other), sum(late),
                     sum(overhead), sum(tools),         sum(looking), sum(result)};
  parts.month_names = all(name);
  parts.month_results = all(result);
  if (!sold) return;
  Chart chart;
  chart.kind = Chart::Kind::columns;
  chart.title = "Sales and cost of sales";
  chart.across = "month";
  chart.across_format = "yyyy-mm";
  chart.up = f.currency.code;
  chart.up_format = "#,##0";
  chart.says = "Sales of " + table.sum(sales).shown(f.currency) + " against a cost of sales of " +
               table.sum(cost_of_sales).shown(f.currency) + ", month by month";
  chart.series.push_back({"sales", parts.month_names, all(sales), Paint::light});
  chart.series.push_back({"cost of sales", parts.month_names, all(cost_of_sales), Paint::striped});
  sheet.chart({picture, 0}, chart, 10, picture_rows);
}

}  // namespace nonrunner::reports::year_sheets

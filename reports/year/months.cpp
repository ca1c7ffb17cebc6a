// The result month by month.
#include <fmt/format.h>

#include "reports/year/parts.h"

namespace nonrunner::reports::year_sheets {

Money result_of(const YearMonth& m) {
  return m.sales - m.cost_of_sales - m.selling_costs + m.other_income - m.late_cost - m.overhead - m.tools -
         m.looking;
}

void write_months(Parts& parts) {
  using namespace month_column;
  Sheet& sheet = *parts.months;
  const YearFigures& f = parts.figures;
  const auto rounded = [&](const std::string& formula) {
    return "ROUND(" + formula + "," + std::to_string(f.currency.digits) + ")";
  };
  constexpr std::uint32_t first = 4;
  sheet.landscape();
  sheet.widths({14, 14, 14, 14, 14, 14, 14, 14, 16, 14});
  sheet.text({0, 0}, fmt::format("Month by month, {}", f.year), look::title);
  sheet.text({1, 0},
             "Before own hours, which are no cost in the books. Looking: costs of cars that were looked at "
             "and left.",
             look::note);
  sheet.headings({first - 1, 0},
                 {"Month", "Sales", "Cost of sales", "Selling costs", "Other income", "Late cost", "Overhead",
                  "Tools", "Looking", "Result"},
                 sales);
  std::uint32_t at = first;
  YearMonth sum;
  Money total;
  for (const YearMonth& m : f.months) {
    const auto cell = [&](std::uint16_t col) { return here(Cell{at, col}); };
    sheet.text({at, 0}, m.first.iso().substr(0, 7));
    for (const auto& [col, amount] :
         {std::pair(sales, m.sales), std::pair(cost_of_sales, m.cost_of_sales),
          std::pair(selling, m.selling_costs), std::pair(other, m.other_income), std::pair(late, m.late_cost),
          std::pair(overhead, m.overhead), std::pair(tools, m.tools), std::pair(looking, m.looking)})
      sheet.money({at, col}, amount);
    sheet.formula({at, result},
                  rounded(cell(sales) + "-" + cell(cost_of_sales) + "-" + cell(selling) + "+" + cell(other) +
                          "-" + cell(late) + "-" + cell(overhead) + "-" + cell(tools) + "-" + cell(looking)),
                  result_of(m));
    sum.sales += m.sales, sum.cost_of_sales += m.cost_of_sales, sum.selling_costs += m.selling_costs,
        sum.other_income += m.other_income, sum.late_cost += m.late_cost;
    sum.overhead += m.overhead, sum.tools += m.tools, sum.looking += m.looking;
    total += result_of(m);
    ++at;
  }
  if (f.months.empty()) sheet.text({at, 0}, "no month yet"), ++at;
  parts.month_first = {first, 0};
  parts.month_last = {at - 1, 0};
  parts.month_totals = {at, 0};
  sheet.text({at, 0}, "in all", look::total);
  for (const auto& [col, amount] :
       {std::pair(sales, sum.sales), std::pair(cost_of_sales, sum.cost_of_sales),
        std::pair(selling, sum.selling_costs), std::pair(other, sum.other_income),
        std::pair(late, sum.late_cost), std::pair(overhead, sum.overhead), std::pair(tools, sum.tools),
        std::pair(looking, sum.looking), std::pair(result, total)})
    sheet.formula({at, col}, rounded("SUM(" + here({first, col}, {at - 1, col}) + ")"), amount,
                  look::money_total);
  Chart chart;
  chart.kind = Chart::Kind::columns;
  chart.title = "Sales and cost of sales";
  chart.up_format = "#,##0";
  const std::string names = sheet.at(parts.month_first, parts.month_last);
  chart.series.push_back({"sales", names, sheet.at({first, sales}, {at - 1, sales}), Paint::light});
  chart.series.push_back(
      {"cost of sales", names, sheet.at({first, cost_of_sales}, {at - 1, cost_of_sales}), Paint::striped});
  sheet.chart({at + 2, 0}, chart, 10, 18);
}

}  // namespace nonrunner::reports::year_sheets

// Hours and what an hour brought: by operation above, the log of the work below.
#include <map>

#include "exact/decimal.h"
#include "reports/profit/parts.h"

namespace nonrunner::reports::profit {

namespace {

constexpr std::uint32_t first_row = 5;
constexpr std::uint16_t number = 0, operation = 1, own = 2, paid = 3, share = 4, value = 5, brought = 6,
                        when = 4, day = 5;

struct Operation {
  std::string name;
  Hours own, paid;
};

}  // namespace

void write_hours(Parts& parts) {
  Sheet& sheet = *parts.hours;
  const ProfitFigures& figures = parts.figures;
  std::vector<Operation> operations;
  std::map<std::string, std::size_t> by_name;
  for (const ProfitHours& each : figures.hours) {
    const auto [found, added] = by_name.emplace(each.operation, operations.size());
    if (added) operations.push_back({each.operation, {}, {}});
    operations[found->second].own += each.own;
    operations[found->second].paid += each.paid;
  }
  if (operations.empty()) operations.push_back({"no hours recorded", {}, {}});
  const auto count = static_cast<std::uint32_t>(operations.size());
  const std::uint32_t total = first_row + count, chart_row = total + 4,
                      log_heading = chart_row + (figures.hours.empty() ? 1 : 18), log = log_heading + 1;
  const std::uint32_t log_end =
      log + static_cast<std::uint32_t>(std::max<std::size_t>(figures.hours.size(), 1)) - 1;
  const auto range = [&](std::uint16_t col) { return fixed({log, col}) + ":" + fixed({log_end, col}); };
  const Outcome& final = parts.sums.final;
  parts.own_all = {total, own};
  parts.own_to_sale = {total + 1, own};
  parts.log_first = {log, 0};
  parts.log_last = {log_end, 0};

  sheet.widths({6, 44, 14, 14, 18, 24, 20});
  sheet.text({0, 0}, "Hours, and what an hour brought", look::title);
  sheet.text({1, 0},
             "Own hours move no money: they are set against the cash profit. Paid hours are in the cost of "
             "the vehicle.",
             look::note);
  sheet.text({2, 0},
             "What it earned: its share of the cash profit by own hours, to be held against the same hours "
             "at the shop's hour.",
             look::note);
  sheet.headings(
      {first_row - 1, 0},
      {"No.", "Operation", "Own hours", "Paid hours", "Share of own", "At the shop's hour", "What it earned"},
      own);
  const std::string hour = parts.result_at(row::hour), profit = parts.result_at(row::cash_profit);
  const auto row_of = [&](std::uint32_t at, const Operation& op, bool is_total) {
    const std::string hours_here = here(Cell{at, own}), all = fixed({total, own});
    const auto sum = [&](std::uint16_t col) {
      if (is_total) return "SUM(" + here({first_row, col}, {total - 1, col}) + ")";
      return "ROUND(SUMIFS(" + range(col) + "," + range(number) + "," + here(Cell{at, number}) + "),3)";
    };
    const Look hours_look = is_total ? look::decimal_total : look::decimal,
               money_look = is_total ? look::money_total : look::money;
    sheet.text({at, operation}, op.name, is_total ? look::total : look::text);
    sheet.formula({at, own}, sum(own), op.own.approximately(), hours_look);
    sheet.formula({at, paid}, sum(paid), op.paid.approximately(), hours_look);
    const double part = final.own.thousandths() == 0 ? 0 : op.own.approximately() / final.own.approximately();
    sheet.formula({at, share}, "IF(" + all + "=0,0," + hours_here + "/" + all + ")", part, look::percent);
    sheet.formula({at, value}, parts.rounded(hours_here + "*" + hour), Price::of(figures.hour).times(op.own),
                  money_look);
    const Money earned = final.own.thousandths() == 0
                             ? Money()
                             : Money::of_minor(scaled(final.cash_profit.minor(), op.own.thousandths(),
                                                      final.own.thousandths(), Rounding::half_away));
    sheet.formula({at, brought},
                  "IF(" + all + "=0,0," + parts.rounded("N(" + profit + ")*" + hours_here + "/" + all) + ")",
                  parts.owned() && !parts.sums.priced ? Money() : earned, money_look);
  };
  Operation sum{"all hours", {}, {}};
  Hours own_by_sale;
  for (std::uint32_t i = 0; i < count; ++i) {
    sheet.whole({first_row + i, number}, i + 1, look::number);
    row_of(first_row + i, operations[i], false);
    sum.own += operations[i].own;
    sum.paid += operations[i].paid;
  }
  row_of(total, sum, true);
  for (const ProfitHours& each : figures.hours)
    if (!each.after_sale) own_by_sale += each.own;
  sheet.text({total + 1, operation}, "of these to the sale");
  sheet.formula({total + 1, own},
                "ROUND(SUMIFS(" + range(own) + "," + range(when) + ",\"" + parts.until_then() + "\"),3)",
                own_by_sale.approximately(), look::decimal);

  Chart chart;
  chart.kind = Chart::Kind::stacked_bars;
  chart.title = "Hours by operation";
  chart.across_format = "0";
  chart.from_zero = true;
  const std::string names = sheet.at({first_row, operation}, {total - 1, operation});
  chart.series.push_back({"own hours", names, sheet.at({first_row, own}, {total - 1, own}), Paint::strong});
  chart.series.push_back(
      {"paid hours", names, sheet.at({first_row, paid}, {total - 1, paid}), Paint::striped});
  if (!figures.hours.empty()) sheet.chart({chart_row, 0}, chart, 7, 16);

  sheet.text({log_heading - 1, 0}, "The log", look::section);
  sheet.headings({log_heading, 0}, {"No.", "Operation", "Own hours", "Paid hours", "When", "Day"}, own, when);
  for (std::size_t i = 0; i < figures.hours.size(); ++i) {
    const ProfitHours& each = figures.hours[i];
    const std::uint32_t at = log + static_cast<std::uint32_t>(i);
    sheet.whole({at, number}, static_cast<std::int64_t>(by_name[each.operation]) + 1, look::number);
    sheet.text({at, operation}, each.operation);
    sheet.decimal({at, own}, each.own, look::decimal_input);
    sheet.decimal({at, paid}, each.paid, look::decimal_input);
    sheet.text({at, when}, each.after_sale ? after_it : parts.until_then(), look::text_apart);
    sheet.day({at, day}, each.day);
  }
}

}  // namespace nonrunner::reports::profit

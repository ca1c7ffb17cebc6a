// Hours and what an hour brought: by operation here, the log of the work on a sheet of its own.
#include <algorithm>
#include <map>

#include "exact/decimal.h"
#include "reports/formula.h"
#include "reports/profit/parts.h"
#include "reports/table.h"

namespace nonrunner::reports::profit {

namespace {

enum : std::uint16_t { number, operation, own, paid, share, value, brought };
constexpr std::size_t most_drawn = 32;  // what a page of Letter holds, with the legend
constexpr int most_rows = 40;
enum : std::uint16_t { log_number, log_operation, log_own, log_paid, when, day };

struct Operation {
  std::string name;
  Hours own, paid;
};

std::vector<Operation> operations_of(const ProfitFigures& figures,
                                     std::map<std::string, std::size_t>& by_name) {
  std::vector<Operation> operations;
  for (const Work& each : figures.hours) {
    const auto [found, added] = by_name.emplace(each.operation, operations.size());
    if (added) operations.push_back({each.operation, {}, {}});
    operations[found->second].own += each.own;
    operations[found->second].paid += each.paid;
  }
  if (operations.empty()) operations.push_back({"no hours recorded", {}, {}});
  return operations;
}

// The work day by day: where hours are changed.
void write_log(Parts& parts, std::map<std::string, std::size_t>& by_name) {
  Sheet& sheet = *parts.log;
  sheet.text({0, 0}, "The log of the work", look::title);
  Table table(sheet, 2,
              {{"No.", 6, look::number},
               {"Operation", 50, look::wrapped},
               {"Own hours", 12, look::decimal_input},
               {"Paid hours", 12, look::decimal_input},
               {"When", 14, look::text_apart},
               {"Day", 12, look::day}});
  for (const Work& each : parts.figures.hours) {
    table.row();
    table.number(log_number, static_cast<double>(by_name[each.operation] + 1));
    table.text(log_operation, each.operation);
    table.count(log_own, each.own);
    table.count(log_paid, each.paid);
    table.text(when, each.after_sale ? after_it : parts.until_then());
    table.day(day, each.day);
  }
  table.close("no hours recorded");
  parts.log_first = table.first(0);
  parts.log_last = table.last(0);
}

void draw(Parts& parts, std::uint32_t first, const std::vector<Operation>& operations, std::uint32_t at,
          int rows) {
  Sheet& sheet = *parts.hours;
  Chart chart;
  chart.kind = Chart::Kind::stacked_bars;
  chart.title = "Hours by operation";
  const std::uint32_t count = drawn(chart, operations.size(), most_drawn), last = first + count - 1;
  chart.across = "hours";
  chart.across_format = "0";
  chart.from_zero = true;
  const auto longest =
      std::max_element(operations.begin(), operations.end(),
                       [](const auto& a, const auto& b) { return a.own + a.paid < b.own + b.paid; });
  chart.says =
      "Most hours went into: " + longest->name.substr(0, 60) + ", " + (longest->own + longest->paid).shown();
  std::vector<std::string> names;
  for (std::size_t i = 0; i < count; ++i) names.push_back(operations[i].name);
  const std::string labels = parts.book.labels(names);
  chart.series.push_back({"own hours", labels, sheet.at({first, own}, {last, own}), Paint::strong});
  chart.series.push_back({"paid hours", labels, sheet.at({first, paid}, {last, paid}), Paint::striped});
  sheet.chart({at, 0}, chart, 7, rows);
}

// What the hours of the row `at` are worth: those of one operation, or all of them in the row `total`.
void write_worth(Parts& parts, std::uint32_t at, std::uint32_t total, Hours hours) {
  Sheet& sheet = *parts.hours;
  const Outcome& final = parts.sums.final;
  const bool none = final.own.thousandths() == 0;
  const std::string hours_here = here(Cell{at, own}), all = fixed({total, own});
  const Look percent = at == total ? Look{Form::percent, Role::total} : look::percent,
             money = at == total ? look::money_total : look::money;
  sheet.formula({at, share}, "IF(" + all + "=0,0," + hours_here + "/" + all + ")",
                none ? 0 : hours.approximately() / final.own.approximately(), percent);
  sheet.formula({at, value}, parts.rounded(hours_here + "*" + parts.result_at(row::hour)),
                Price::of(parts.figures.hour).times(hours), money);
  const Money earned = none ? Money()
                            : Money::of_minor(scaled(final.cash_profit.minor(), hours.thousandths(),
                                                     final.own.thousandths(), Rounding::half_away));
  sheet.formula({at, brought},
                "IF(" + all + "=0,0," +
                    parts.rounded("N(" + parts.result_at(row::cash_profit) + ")*" + hours_here + "/" + all) +
                    ")",
                parts.owned() && !parts.sums.priced ? Money() : earned, money);
}

}  // namespace

void write_hours(Parts& parts) {
  Sheet& sheet = *parts.hours;
  const ProfitFigures& figures = parts.figures;
  std::map<std::string, std::size_t> by_name;
  const std::vector<Operation> operations = operations_of(figures, by_name);
  write_log(parts, by_name);
  constexpr std::uint32_t picture = 4;
  // Two rows of the sheet for each, so that a long name finds room on two lines.
  const int rows =
      figures.hours.empty() ? 0 : std::min(8 + 2 * static_cast<int>(operations.size()), most_rows);
  const auto heading = picture + static_cast<std::uint32_t>(rows) + (rows > 0 ? 1 : 0);
  Table table(sheet, heading,
              {{"No.", 6, look::number},
               {"Operation", 40, look::wrapped},
               {"Own hours", 11, look::decimal, summed},
               {"Paid hours", 11, look::decimal, summed},
               {"Share of own", 14, look::percent},
               {"At the shop's hour", 14, look::money},
               {"What it earned", 14, look::money}});
  sheet.text({0, 0}, "Hours, and what an hour brought", look::title);
  sheet.across(
      {1, 0}, 7,
      "Own hours move no money: they are set against the cash profit. Paid hours are in the cost of "
      "the vehicle. What it earned: its share of the cash profit by own hours, to be held against the "
      "same hours at the shop's hour.",
      look::note);
  const auto count = static_cast<std::uint32_t>(operations.size());
  const std::uint32_t total = heading + 1 + count;
  const auto range = [&](std::uint16_t col) {
    return parts.log->at({parts.log_first.row, col}, {parts.log_last.row, col});
  };
  Hours own_by_sale;
  for (const Operation& each : operations) {
    table.row();
    const auto of_log = [&](std::uint16_t col) {
      return formula::rounded("SUMIFS(" + range(col) + "," + range(log_number) + "," + table.in(number) + ")",
                              3);
    };
    table.number(number, static_cast<double>(table.size()));
    table.text(operation, each.name);
    table.number(own, of_log(log_own), each.own.approximately());
    table.number(paid, of_log(log_paid), each.paid.approximately());
    write_worth(parts, table.at(), total, each.own);
  }
  table.close("all hours", "no hours recorded");
  write_worth(parts, total, total, parts.sums.final.own);
  for (const Work& each : figures.hours)
    if (!each.after_sale) own_by_sale += each.own;
  parts.own_all = {total, own};
  parts.own_to_sale = {total + 1, own};
  sheet.text({total + 1, operation}, "of these " + std::string(parts.until_then()));
  sheet.formula(parts.own_to_sale,
                formula::rounded(
                    "SUMIFS(" + range(log_own) + "," + range(when) + ",\"" + parts.until_then() + "\")", 3),
                own_by_sale.approximately(), look::decimal);
  if (rows > 0) draw(parts, heading + 1, operations, picture, rows);
}

}  // namespace nonrunner::reports::profit

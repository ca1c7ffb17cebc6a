// Cash over time: how much money was tied up in the vehicle at the end of each day on which some moved.
#include <algorithm>
#include <cmath>

#include "reports/profit/parts.h"
#include "reports/table.h"

namespace nonrunner::reports::profit {

namespace {

enum : std::uint16_t { day, out, in, after, drawn_day, drawn_cash };
constexpr std::uint32_t picture = 4, picture_rows = 20;

// A line needs two days.
bool is_drawn(const ProfitFigures& figures) {
  return !figures.lines.empty() && figures.lines.front().day != figures.lines.back().day;
}

// From the first day to the last in some six steps: left to itself the axis of a few days close together would
// begin and end decades away.
Chart::Ends ends_of(const std::vector<Day>& days) {
  const double first = number_of(days.front()), step = std::ceil((number_of(days.back()) - first) / 6);
  return {first, first + step * std::ceil((number_of(days.back()) - first) / step), step};
}

// Money stands still between two days on which some moved, so the line has a step: each day is drawn twice,
// with the cash before it and with the cash after it.
void draw(Parts& parts, const Table& table, const std::vector<Money>& cash) {
  Sheet& sheet = *parts.cash;
  const std::uint32_t first = table.first(day).row;
  std::uint32_t at = first;
  for (std::size_t i = 0; i < cash.size(); ++i)
    for (const bool before : {true, false}) {
      const std::uint32_t of = first + static_cast<std::uint32_t>(i);
      sheet.formula({at, drawn_day}, here(Cell{of, day}), number_of(parts.cash_days[i]), look::day);
      if (before && i == 0)
        sheet.money({at, drawn_cash}, Money());
      else
        sheet.formula({at, drawn_cash}, here(Cell{before ? of - 1 : of, after}),
                      before ? cash[i - 1] : cash[i]);
      ++at;
    }
  sheet.hidden_columns(drawn_day, drawn_cash);
  sheet.printed_columns(drawn_day);
  Chart chart;
  chart.kind = Chart::Kind::lines;
  chart.title = "Cash in the vehicle, day by day";
  chart.across = "day";
  chart.up = parts.figures.currency.code + ", below zero: tied up";
  chart.across_format = "yyyy-mm-dd";
  chart.across_ends = ends_of(parts.cash_days);
  chart.up_format = "#,##0";
  chart.legend = false;
  chart.says = "Cash in the vehicle over time; at most " + parts.sums.tied_up.shown(parts.figures.currency) +
               " was tied up at the end of a day";
  chart.series.push_back({"cash", sheet.at({first, drawn_day}, {at - 1, drawn_day}),
                          sheet.at({first, drawn_cash}, {at - 1, drawn_cash}), Paint::strong, Mark::none});
  sheet.chart({picture, 0}, chart, 4, picture_rows);
}

}  // namespace

void write_cash(Parts& parts) {
  Sheet& sheet = *parts.cash;
  const auto& lines = parts.figures.lines;
  Table table(sheet, is_drawn(parts.figures) ? picture + picture_rows + 1 : picture,
              {{"Day", 20, look::day},
               {"Out", 22, look::money},
               {"In", 22, look::money},
               {"Cash after the day", 24, look::money}});
  sheet.text({0, 0}, "Cash over time", look::title);
  sheet.across(
      {1, 0}, 4,
      "With deposits that go and come back; what was drawn from the shelf counts on the day it was drawn.",
      look::note);
  sheet.text({2, 0}, "Most cash tied up");
  Money running;
  std::vector<Money> cash;
  for (std::size_t i = 0; i < lines.size();) {
    std::size_t next = i;
    Money into, from;
    for (; next < lines.size() && lines[next].day == lines[i].day; ++next) {
      (is_negative(lines[next].amount) ? from : into) +=
          is_negative(lines[next].amount) ? -lines[next].amount : lines[next].amount;
      running += lines[next].amount;
    }
    const std::uint32_t first = parts.line_first.row + static_cast<std::uint32_t>(i),
                        last = parts.line_first.row + static_cast<std::uint32_t>(next) - 1;
    const auto sum = [&](std::uint16_t col) {
      return parts.rounded("SUM(" + parts.entries->at({first, col}, {last, col}) + ")");
    };
    table.row();
    table.day(day, lines[i].day);
    table.money(out, sum(column::out), from);
    table.money(in, sum(column::in), into);
    table.money(after, parts.entries->at({last, column::running}), running);
    parts.cash_days.push_back(lines[i].day);
    cash.push_back(running);
    i = next;
  }
  table.close("no money moved");
  parts.tied_up = {2, after};
  sheet.formula(parts.tied_up,
                "MAX(0,-MIN(" + fixed(table.first(after)) + ":" + fixed(table.last(after)) + "))",
                parts.sums.tied_up, look::money_total);
  if (is_drawn(parts.figures)) draw(parts, table, cash);
}

}  // namespace nonrunner::reports::profit

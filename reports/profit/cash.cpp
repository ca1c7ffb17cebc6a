// Cash over time: how much money was tied up in the vehicle at the end of each day on which some moved.
#include <algorithm>

#include "reports/profit/parts.h"

namespace nonrunner::reports::profit {

void write_cash(Parts& parts) {
  constexpr std::uint32_t picture = 4, picture_rows = 20, first = picture + picture_rows + 2;
  Sheet& sheet = *parts.cash;
  const auto& lines = parts.figures.lines;
  sheet.widths({18, 18, 18, 20, 18});
  sheet.text({0, 0}, "Cash over time", look::title);
  sheet.text(
      {1, 0},
      "With deposits that go and come back; what was drawn from the shelf counts on the day it was drawn.",
      look::note);
  sheet.text({2, 0}, "Most cash tied up");
  sheet.headings({first - 1, 0}, {"Day", "Out", "In", "Cash after the day"}, 1);
  std::uint32_t at = first;
  Money running;
  for (std::size_t i = 0; i < lines.size(); ++at) {
    std::size_t next = i;
    Money in, out;
    for (; next < lines.size() && lines[next].day == lines[i].day; ++next) {
      (is_negative(lines[next].amount) ? out : in) +=
          is_negative(lines[next].amount) ? -lines[next].amount : lines[next].amount;
      running += lines[next].amount;
    }
    const std::uint32_t from = parts.line_first.row + static_cast<std::uint32_t>(i),
                        to = parts.line_first.row + static_cast<std::uint32_t>(next) - 1;
    const auto sum = [&](std::uint16_t col) {
      return parts.rounded("SUM(" + parts.entries->at({from, col}, {to, col}) + ")");
    };
    sheet.day({at, 0}, lines[i].day);
    sheet.formula({at, 1}, sum(column::out), out);
    sheet.formula({at, 2}, sum(column::in), in);
    sheet.formula({at, 3}, parts.entries->at({to, column::running}), running);
    i = next;
  }
  if (at == first) sheet.text({at, 0}, "no money moved"), ++at;
  const std::string range = fixed({first, 3}) + ":" + fixed({at - 1, 3});
  parts.tied_up = {2, 3};
  sheet.formula(parts.tied_up, "MAX(0,-MIN(" + range + "))", parts.sums.tied_up, look::money_total);
  Chart chart;
  chart.kind = Chart::Kind::lines;
  chart.title = "Cash in the vehicle, day by day (below zero: tied up)";
  chart.across_format = "yyyy-mm-dd";
  chart.up_format = "#,##0";
  chart.legend = false;
  chart.series.push_back({"cash", sheet.at({first, 0}, {at - 1, 0}), sheet.at({first, 3}, {at - 1, 3}),
                          Paint::strong, Mark::small});
  sheet.chart({picture, 0}, chart, 5, picture_rows);
}

}  // namespace nonrunner::reports::profit

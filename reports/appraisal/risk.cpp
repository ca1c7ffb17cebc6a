// The spread of the cash profit, what moves the answer, what to name when haggling, and the cautions.
#include <fmt/format.h>

#include "reports/appraisal/parts.h"

namespace nonrunner::reports::appraisal_sheets {

namespace {

std::uint32_t write_spread(Parts& parts, std::uint32_t at) {
  Sheet& sheet = *parts.risk;
  const AppraisalFigures& f = parts.figures;
  sheet.headings({at, 0}, {"Cash profit", "At"}, 1);
  ++at;
  for (const auto& [share, cash] : f.quantiles) {
    sheet.text({at, 0}, fmt::format("below it in {:g} of 100 cases", share * 100));
    sheet.decimal({at, 1}, cash, look::money);
    ++at;
  }
  sheet.text({at, 0}, "chance of losing cash", look::total);
  sheet.decimal({at, 1}, f.loss_chance, {Form::percent, Role::total});
  at += 2;
  sheet.headings({at, 0}, {"From", "To", "Chance"}, 0);
  const auto steps = static_cast<std::uint32_t>(f.spread.size());
  parts.spread_first = {at + 1, 0};
  double sum = 0;
  for (std::uint32_t i = 0; i < steps; ++i) {
    ++at;
    const double width = (f.spread_to - f.spread_from) / steps;
    sheet.decimal({at, 0}, f.spread_from + width * i, look::money);
    sheet.decimal({at, 1}, f.spread_from + width * (i + 1), look::money);
    sheet.decimal({at, 2}, f.spread[i], look::percent);
    sum += f.spread[i];
  }
  parts.spread_last = {at, 0};
  if (steps > 0) {
    sheet.text({at + 1, 0}, "in all", look::total);
    sheet.formula({at + 1, 2}, "SUM(" + here({parts.spread_first.row, 2}, {at, 2}) + ")", sum,
                  {Form::percent, Role::total});
  }
  return at + 3;
}

}  // namespace

void write_risk(Parts& parts) {
  Sheet& sheet = *parts.risk;
  const AppraisalFigures& f = parts.figures;
  sheet.widths({56, 18, 18, 20, 22, 16});
  sheet.text({0, 0}, "Risk, and what moves the answer", look::title);
  sheet.text({1, 0},
             fmt::format("From {} points of the model at the price asked; these do not follow changes on "
                         "other sheets: appraise again.",
                         f.points),
             look::note);
  // Above the tables, where no end of a page falls into it however many amounts there are.
  constexpr std::uint32_t picture = 3, picture_rows = 28;
  std::uint32_t at = write_spread(parts, f.moves.empty() ? picture : picture + picture_rows + 1);
  sheet.headings(
      {at, 0},
      {"Amount", "Its 10 % point", "Its 90 % point", "Profit at the one", "Profit at the other", "Swing"}, 1);
  const std::uint32_t first = at + 1;
  for (const MoveRow& move : f.moves) {
    ++at;
    sheet.text({at, 0}, move.amount);
    // Prices and hours in the same column: of small ones the decimals count.
    const Look how = move.high_amount < 10 ? look::decimal : look::money;
    sheet.decimal({at, 1}, move.low_amount, how);
    sheet.decimal({at, 2}, move.high_amount, how);
    sheet.decimal({at, 3}, move.low, look::money);
    sheet.decimal({at, 4}, move.high, look::money);
    const double swing = move.high > move.low ? move.high - move.low : move.low - move.high;
    sheet.formula({at, 5}, "ABS(" + here(Cell{at, 4}) + "-" + here(Cell{at, 3}) + ")", swing, look::money);
  }
  if (f.moves.empty()) return;
  const std::uint32_t last = std::min(at, first + 11);
  Chart chart;
  chart.title = "What moves the expected profit: each amount at its 10 % and 90 % point";
  chart.across_format = "#,##0";
  chart.gap = 40;
  const std::string names = sheet.at({first, 0}, {last, 0});
  chart.series.push_back({"at its 10 % point", names, sheet.at({first, 3}, {last, 3}), Paint::striped});
  chart.series.push_back({"at its 90 % point", names, sheet.at({first, 4}, {last, 4}), Paint::strong});
  sheet.chart({picture, 0}, chart, 6, picture_rows);
}

void write_haggling(Parts& parts) {
  Sheet& sheet = *parts.haggling;
  sheet.widths({64, 16, 14, 18});
  sheet.text({0, 0}, "What to say when haggling", look::title);
  sheet.text({1, 0},
             "What the car still costs its buyer, the largest first: cash and own hours at the shop's hour. "
             "What depends on the cause stands with its chance.",
             look::note);
  sheet.headings({3, 0}, {"What", "If it comes to it", "Chance", "Expected"}, 1);
  sheet.frozen(4, 0, 3);
  std::uint32_t at = 4;
  double sum = 0;
  for (const HagglingRow& row_figures : parts.figures.haggling) {
    sheet.text({at, 0}, row_figures.what);
    sheet.decimal({at, 1}, row_figures.amount, look::money);
    sheet.decimal({at, 2}, row_figures.chance, look::percent);
    sheet.formula({at, 3}, here(Cell{at, 1}) + "*" + here(Cell{at, 2}),
                  row_figures.amount * row_figures.chance, look::money);
    sum += row_figures.amount * row_figures.chance;
    ++at;
  }
  sheet.text({at, 0}, "expected, in all", look::total);
  sheet.formula({at, 3}, at == 4 ? "0" : "SUM(" + here({4, 3}, {at - 1, 3}) + ")", sum, look::money_total);
  if (at == 4) return;
  Chart chart;
  chart.title = "Expected costs to name";
  chart.legend = false;
  chart.from_zero = true;
  chart.across_format = "#,##0";
  chart.series.push_back({"expected", sheet.at({4, 0}, {at - 1, 0}), sheet.at({4, 3}, {at - 1, 3}),
                          Paint::strong, Mark::none, false, true, true});
  sheet.chart({at + 2, 0}, chart, 4, 20);
}

void write_cautions(Parts& parts) {
  Sheet& sheet = *parts.cautions;
  sheet.widths({30, 90});
  sheet.text({0, 0}, "Cautions", look::title);
  sheet.text({1, 0},
             "In general words. They replace no maker's instruction, no local rule and no licensed person.",
             look::note);
  std::uint32_t at = 3;
  for (const CautionText& each : parts.figures.cautions) {
    sheet.height(at, 15.0 * (1.0 + static_cast<double>(each.text.size() / 95)));
    sheet.text({at, 0}, each.about, look::wrapped);
    sheet.text({at, 1}, each.text, look::caution);
    ++at;
  }
  if (!parts.figures.notes.empty()) sheet.text({++at, 0}, "How the figures came about", look::section);
  for (const std::string& note : parts.figures.notes) {
    ++at;
    sheet.height(at, 15.0 * (1.0 + static_cast<double>(note.size() / 120)));
    sheet.across({at, 0}, 2, note, look::wrapped);
  }
}

}  // namespace nonrunner::reports::appraisal_sheets

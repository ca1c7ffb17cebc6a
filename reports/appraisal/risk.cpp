// The spread of the cash profit, what moves the answer, and the cautions.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "reports/appraisal/parts.h"
#include "reports/table.h"

namespace nonrunner::reports::appraisal_sheets {

namespace {

void write_quantiles(Parts& parts, std::uint32_t& at) {
  Sheet& sheet = *parts.risk;
  const AppraisalFigures& f = parts.figures;
  const std::uint32_t top = at;
  sheet.headings({at, 0}, {"Cash profit", "At"}, 1);
  ++at;
  for (const auto& [share, cash] : f.quantiles) {
    sheet.text({at, 0}, fmt::format("below it in {:g} of 100 cases", share * 100));
    sheet.decimal({at, 1}, cash, look::money);
    ++at;
  }
  sheet.text({at, 0}, "chance of losing cash", look::total);
  sheet.decimal({at, 1}, f.loss_chance, {Form::percent, Role::total});
  sheet.together(top, at);
  at += 2;
}

// Paid before the sale's money comes.
void write_cash_needed(Parts& parts, std::uint32_t& at) {
  Sheet& sheet = *parts.risk;
  const AppraisalFigures& f = parts.figures;
  const std::uint32_t top = at;
  sheet.headings({at, 0}, {"Cash needed", "Amount"}, 1);
  for (const auto& [what, amount] : {std::pair<std::string, double>("to be expected", f.cash_needed),
                                     {"19 times in 20 at most", f.cash_p95},
                                     {"in the dearest case that counts: " + f.dearest, f.cash_worst}}) {
    ++at;
    sheet.wrapped({at, 0}, what);
    sheet.decimal({at, 1}, amount, look::money);
  }
  sheet.together(top, at);
  at += 2;
}

// In steps of cash profit: what the picture on the first sheet is drawn from. Each chance stands once more, by what
// it is: a loss, no loss, and the step that holds the expected cash profit.
void write_spread(Parts& parts, std::uint32_t at) {
  Sheet& sheet = *parts.risk;
  const AppraisalFigures& f = parts.figures;
  if (f.spread.empty()) return;
  const std::uint32_t top = at;
  sheet.headings({at, 0}, {"Cash profit, from", "To", "Chance", "a loss", "no loss", "expected"}, 0);
  const auto steps = static_cast<std::uint32_t>(f.spread.size());
  parts.spread_first = {at + 1, 0};
  double sum = 0;
  const double width = (f.spread_to - f.spread_from) / steps;
  for (std::uint32_t i = 0; i < steps; ++i) {
    ++at;
    const double from = f.spread_from + width * i, to = f.spread_from + width * (i + 1);
    sheet.decimal({at, 0}, from, look::money);
    sheet.decimal({at, 1}, to, look::money);
    sheet.decimal({at, 2}, f.spread[i], look::percent);
    const bool expected = from <= f.expected_cash_profit && f.expected_cash_profit < to;
    const std::uint16_t kind = expected ? 5 : (from + to) / 2 < 0 ? 3 : 4;
    for (const std::uint16_t col : {std::uint16_t{3}, std::uint16_t{4}, std::uint16_t{5}})
      sheet.formula({at, col}, col == kind ? here(Cell{at, 2}) : "0", col == kind ? f.spread[i] : 0,
                    look::percent);
    sum += f.spread[i];
  }
  parts.spread_last = {at, 0};
  sheet.text({at + 1, 0}, "in all", look::total);
  sheet.formula({at + 1, 2}, "SUM(" + here({parts.spread_first.row, 2}, {at, 2}) + ")", sum,
                {Form::percent, Role::total});
  sheet.together(top, at + 1);
  sheet.hidden_columns(3, 5);
  sheet.printed_columns(3);
}

// For the chance of a loss at another price; on a sheet that is not shown.
void keep_drawn(Parts& parts) {
  const std::vector<double>& drawn = parts.figures.drawn;
  if (drawn.empty()) return;
  parts.drawn->widths({24});
  parts.drawn->text({0, 0}, "Cash profit at the price asked, at equally likely chances", look::note);
  for (std::size_t i = 0; i < drawn.size(); ++i)
    parts.drawn->decimal({static_cast<std::uint32_t>(i + 1), 0}, drawn[i], look::money);
  parts.drawn_first = {1, 0};
  parts.drawn_last = {static_cast<std::uint32_t>(drawn.size()), 0};
}

}  // namespace

void write_risk(Parts& parts) {
  Sheet& sheet = *parts.risk;
  sheet.widths({60, 22, 22, 12, 12, 12});
  sheet.text({0, 0}, "Risk", look::title);
  sheet.across({1, 0}, 3,
               fmt::format("From {} points of the model at the price asked; these do not follow changes on "
                           "other sheets: appraise again.",
                           parts.figures.points),
               look::note);
  say_when_changed(parts, sheet, 2);
  keep_drawn(parts);
  std::uint32_t at = 4;
  write_quantiles(parts, at);
  write_cash_needed(parts, at);
  write_spread(parts, at);
}

namespace {

// Columns of the sheet Moves; the last two only feed its picture.
namespace moves {
enum : std::uint16_t { amount, low, high, at_low, at_high, swing, below, above };
constexpr std::uint32_t picture = 4;
constexpr std::size_t most_drawn = 46;  // what a page holds: those that move it most

int picture_rows(const AppraisalFigures& f) {
  return std::max(8 + static_cast<int>(std::min(f.moves.size(), most_drawn)), 14);
}
}  // namespace moves

void draw_moves(Parts& parts, const Table& table, std::vector<std::string> names) {
  using namespace moves;
  const AppraisalFigures& f = parts.figures;
  Sheet& sheet = *parts.moves;
  Chart chart;
  chart.title = "What moves the expected profit: each amount at its 10 % and 90 % point";
  const std::uint32_t first = table.first(amount).row,
                      last = first + drawn(chart, f.moves.size(), most_drawn, "the strongest") - 1;
  names.resize(last - first + 1);
  const Money expected = Money::of_minor(std::llround(f.expected_profit * std::pow(10.0, f.currency.digits)));
  chart.across = fmt::format("{}, more or less than the expected profit of {}", f.currency.code,
                             expected.shown(f.currency));
  chart.across_format = "#,##0";
  chart.gap = 40;
  chart.over_each_other = true;
  chart.says = "What moves the expected profit most: " + names.front().substr(0, 60);
  const std::string labels = parts.book.labels(names);
  chart.series.push_back(
      {"at its 10 % point", labels, sheet.at({first, below}, {last, below}), Paint::striped});
  chart.series.push_back(
      {"at its 90 % point", labels, sheet.at({first, above}, {last, above}), Paint::strong});
  sheet.chart({picture, 0}, chart, 6, picture_rows(f));
}

}  // namespace

void write_moves(Parts& parts) {
  using namespace moves;
  const AppraisalFigures& f = parts.figures;
  Sheet& sheet = *parts.moves;
  if (f.moves.empty()) return sheet.hide();
  Table table(sheet, picture + static_cast<std::uint32_t>(picture_rows(f)) + 1,
              {{"Amount", 50, look::wrapped},
               {"Its 10 % point", 17, look::money},
               {"Its 90 % point", 17, look::money},
               {"Profit at the one", 18, look::money},
               {"Profit at the other", 18, look::money},
               {"Swing", 14, look::money},
               {"", 2, look::money_note},
               {"", 2, look::money_note}});
  sheet.text({0, 0}, "What moves the answer", look::title);
  sheet.across(
      {1, 0}, 6,
      "The expected profit with one amount at its 10 % and at its 90 % point, all others as they are. "
      "As appraised: it does not follow changes on the other sheets.",
      look::note);
  say_when_changed(parts, sheet, 2);
  const std::string expected = formula::literal(f.expected_profit);
  std::vector<std::string> names;
  for (const MoveRow& move : f.moves) {
    table.row();
    table.text(amount, move.amount);
    names.push_back(move.amount);
    // Prices, hours and the pace in the same column.
    const Look how = move.unit == MoveRow::Unit::money  ? look::money
                     : move.unit == MoveRow::Unit::time ? look::decimal
                                                        : look::factor;
    table.number(low, move.low_amount, how);
    table.number(high, move.high_amount, how);
    table.number(at_low, move.low);
    table.number(at_high, move.high);
    table.number(swing, "ABS(" + table.in(at_high) + "-" + table.in(at_low) + ")",
                 move.high > move.low ? move.high - move.low : move.low - move.high);
    // For the picture: how far from the expected profit.
    table.number(below, table.in(at_low) + "-" + expected, move.low - f.expected_profit);
    table.number(above, table.in(at_high) + "-" + expected, move.high - f.expected_profit);
  }
  sheet.hidden_columns(below, above);
  sheet.printed_columns(below);
  draw_moves(parts, table, names);
}

void write_cautions(Parts& parts) {
  Sheet& sheet = *parts.cautions;
  sheet.widths({30, 88});
  sheet.text({0, 0}, "Cautions", look::title);
  sheet.text({1, 0},
             "In general words. They replace no maker's instruction, no local rule and no licensed person.",
             look::note);
  std::uint32_t at = 3;
  for (const CautionText& each : parts.figures.cautions) {
    sheet.wrapped({at, 0}, each.about);
    sheet.wrapped({at, 1}, each.text, look::caution);
    ++at;
  }
  if (!parts.figures.notes.empty()) sheet.text({++at, 0}, "How the figures came about", look::section);
  for (const std::string& note : parts.figures.notes) {
    sheet.across({++at, 0}, 2, note, look::wrapped);
  }
}

}  // namespace nonrunner::reports::appraisal_sheets

// What each correction costs, line by line, and what is to be bought for it, by source.
#include <algorithm>
#include <map>

#include "reports/appraisal/parts.h"

namespace nonrunner::reports::appraisal_sheets {

namespace {

constexpr std::uint16_t name = 0, kind = 1, source = 2, quantity = 3, price = 4, cash = 5, hours = 6,
                        core = 7;

const char* name_of(CorrectionLine::Kind k) {
  switch (k) {
    case CorrectionLine::Kind::operation:
      return "operation";
    case CorrectionLine::Kind::part:
      return "part";
    case CorrectionLine::Kind::consumable:
      return "consumable";
    case CorrectionLine::Kind::sublet:
      return "sublet";
  }
  return "";
}

// The lines of a correction from the row `at` on: its totals, and where the names of its lines stand.
CorrectionTotals write_lines(Sheet& sheet, const CorrectionFigures& correction, std::uint32_t& at,
                             std::vector<Cell>& names) {
  const std::uint32_t first = at;
  CorrectionTotals total;
  for (const CorrectionLine& line : correction.lines) {
    names.push_back({at, name});
    sheet.wrapped({at, name}, line.name);
    sheet.text({at, kind}, name_of(line.kind));
    sheet.text({at, source}, line.source);
    const bool bought = line.kind != CorrectionLine::Kind::operation;
    if (bought) {
      sheet.decimal({at, quantity}, line.quantity, look::decimal_input);
      sheet.decimal({at, price}, line.price, look::money_input);
      sheet.formula({at, cash}, here(Cell{at, quantity}) + "*" + here(Cell{at, price}),
                    line.quantity * line.price, look::money);
      total.cash += line.quantity * line.price;
    }
    if (!bought || line.hours > 0) sheet.decimal({at, hours}, line.hours, look::decimal_input);
    if (line.core > 0)
      sheet.formula({at, core}, here(Cell{at, quantity}) + "*" + formula::literal(line.core),
                    line.quantity * line.core, look::money);
    total.hours += line.hours;
    ++at;
  }
  if (correction.lines.empty()) sheet.text({at, name}, "nothing to buy and nothing to do"), ++at;
  total.cash_cell = {at, cash};
  total.hours_cell = {at, hours};
  sheet.text({at, name}, "in all", look::total);
  sheet.formula(total.cash_cell, "SUM(" + here({first, cash}, {at - 1, cash}) + ")", total.cash,
                look::money_total);
  sheet.formula(total.hours_cell, "SUM(" + here({first, hours}, {at - 1, hours}) + ")", total.hours,
                look::decimal_total);
  return total;
}

}  // namespace

void write_costs(Parts& parts) {
  Sheet& sheet = *parts.costs;
  sheet.landscape();
  sheet.widths({46, 14, 12, 11, 15, 15, 21, 15});
  sheet.text({0, 0}, "What each correction costs", look::title);
  sheet.across(
      {1, 0}, 8,
      "Expected figures: the price of a salvage part counts the chance of a bad one; hours are by the "
      "estimate, before the pace.",
      look::note);
  // One heading for all of them: it stands on every page, however long a correction is.
  sheet.headings(
      {3, 0},
      {"Line", "Kind", "Source", "Quantity", "Expected price", "Cash", "Own hours, estimate", "Core deposit"},
      quantity);
  sheet.frozen(4, 0, 3);
  std::uint32_t at = 4;
  std::size_t names_written = 0;
  for (const CorrectionFigures& correction : parts.figures.corrections) {
    const std::uint32_t top = at;
    sheet.across({at, name}, 4, correction.name, look::section);
    sheet.text({at, cash}, "comes to this with a chance of", look::note);
    sheet.formula({at, core}, parts.chance_of(names_written), parts.chance_now(names_written), look::percent);
    ++names_written;
    ++at;
    std::vector<Cell> cells;
    const CorrectionTotals total = write_lines(sheet, correction, at, cells);
    parts.corrections.push_back(total);
    parts.line_cells.push_back(cells);
    sheet.together(top, at);
    at += 2;
  }
  if (parts.figures.corrections.empty()) sheet.text({at, name}, "No cause can be put right."), ++at;
}

void write_parts_to_buy(Parts& parts) {
  Sheet& sheet = *parts.parts;
  sheet.landscape();
  sheet.widths({14, 42, 38, 12, 12, 17, 15});
  sheet.text({0, 0}, "Parts to buy, by source", look::title);
  sheet.across({1, 0}, 7,
               "What each correction needs; buy when the cause is known. Prices stand on the sheet Costs.",
               look::note);
  sheet.headings({3, 0}, {"Source", "Part", "For", "Needed with chance", "Quantity", "Cash", "Core deposit"},
                 3);
  sheet.frozen(4, 0, 3);
  struct Wanted {
    std::string source;
    std::size_t correction, line;
  };
  std::vector<Wanted> wanted;
  for (std::size_t c = 0; c < parts.figures.corrections.size(); ++c)
    for (std::size_t i = 0; i < parts.figures.corrections[c].lines.size(); ++i) {
      const CorrectionLine& line = parts.figures.corrections[c].lines[i];
      if (line.kind == CorrectionLine::Kind::operation) continue;
      wanted.push_back({line.source.empty() ? name_of(line.kind) : line.source, c, i});
    }
  std::stable_sort(wanted.begin(), wanted.end(),
                   [](const Wanted& a, const Wanted& b) { return a.source < b.source; });
  std::uint32_t at = 4;
  for (const Wanted& each : wanted) {
    const CorrectionFigures& correction = parts.figures.corrections[each.correction];
    const CorrectionLine& line = correction.lines[each.line];
    const std::uint32_t there = parts.line_cells[each.correction][each.line].row;
    sheet.text({at, 0}, each.source);
    sheet.wrapped({at, 1}, line.name);
    sheet.wrapped({at, 2}, correction.name);
    sheet.formula({at, 3}, parts.chance_of(each.correction), parts.chance_now(each.correction),
                  look::percent);
    sheet.formula({at, 4}, parts.costs->at({there, quantity}), line.quantity, look::decimal);
    sheet.formula({at, 5}, parts.costs->at({there, cash}), line.quantity * line.price, look::money);
    if (line.core > 0)
      sheet.formula({at, 6}, parts.costs->at({there, core}), line.quantity * line.core, look::money);
    ++at;
  }
  if (wanted.empty()) sheet.text({at, 0}, "no parts");
}

}  // namespace nonrunner::reports::appraisal_sheets

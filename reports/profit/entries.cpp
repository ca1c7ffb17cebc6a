// Every entry behind the result: what a person changes here, every other sheet follows.
#include <algorithm>
#include <map>

#include "exact/decimal.h"
#include "reports/profit/parts.h"

namespace nonrunner::reports::profit {

const char* const after_it = "after it";

namespace {

constexpr std::uint32_t heading_row = 3;

// What one piece came to, as it counts: tax, shipping and discount of its paper are in it.
Money each(Money out, Quantity quantity) {
  return Money::of_minor(scaled(out.minor(), 1000, quantity.thousandths(), Rounding::half_away));
}

void running_cell(Parts& parts, std::uint32_t at, bool first, Money running) {
  const std::string row = std::to_string(at + 1);
  std::string formula = "ROUND(";
  if (!first) formula += letters(column::running) + std::to_string(at) + "+";
  formula += letters(column::in) + row + "-" + letters(column::out) + row + "," +
             std::to_string(parts.digits()) + ")";
  parts.entries->formula({at, column::running}, formula, running);
}

// Its paper, or what stands for it.
std::string paper_in_words(const ProfitLine& line) {
  const std::string paper = line.from_shelf ? "from the shelf" : line.paper;
  if (!line.without_paper) return paper;
  return paper.empty() ? "no paper" : paper + ", no paper";
}

// All of a row but what runs on from row to row.
void write_line(Parts& parts, std::uint32_t at, const ProfitLine& line, std::size_t variance_line) {
  Sheet& sheet = *parts.entries;
  const std::string price = parts.result_at(row::price);
  sheet.day({at, column::day}, line.day);
  sheet.whole({at, column::entry}, line.entry, look::number);
  sheet.wrapped({at, column::paper}, paper_in_words(line));
  sheet.wrapped({at, column::what}, line.what);
  sheet.text({at, column::kind}, name_of(line.kind));
  if (!line.source.empty()) sheet.text({at, column::source}, line.source);
  if (line.quantity) sheet.decimal({at, column::quantity}, *line.quantity, look::decimal);
  if (line.quantity && line.quantity->thousandths() != 0 && line.kind != ProfitKind::sale) {
    const std::string quantity = here(Cell{at, column::quantity});
    sheet.formula({at, column::each},
                  "IF(" + quantity + "=0,0," +
                      parts.rounded("(" + here(Cell{at, column::out}) + "-" + here(Cell{at, column::in}) +
                                    ")/" + quantity) +
                      ")",
                  each(-line.amount, *line.quantity));
  }
  if (line.kind == ProfitKind::sale)
    sheet.formula({at, column::in}, price, line.amount);
  else if (line.kind == ProfitKind::commission && parts.sums.commission_by_rate)
    sheet.formula({at, column::out}, parts.rounded(price + "*" + parts.result_at(row::rate)), -line.amount);
  else if (is_negative(line.amount))
    sheet.money({at, column::out}, -line.amount, look::money_input);
  else
    sheet.money({at, column::in}, line.amount, look::money_input);
  sheet.text({at, column::when}, line.after_sale ? after_it : parts.until_then(), look::text_apart);
  if (variance_line > 0)
    sheet.whole({at, column::estimate}, static_cast<std::int64_t>(variance_line), look::number);
}

// Of a vehicle that is not sold yet: the sale that a price typed in would make.
void write_sale_to_come(Parts& parts, std::uint32_t& at, Money running, std::size_t variance_line) {
  Sheet& sheet = *parts.entries;
  const std::string price = parts.result_at(row::price);
  sheet.text({at, column::what}, "sale, at the price on the first sheet");
  sheet.text({at, column::kind}, name_of(ProfitKind::sale));
  sheet.formula({at, column::in}, "N(" + price + ")", Money());
  sheet.text({at, column::when}, parts.until_then(), look::text_apart);
  running_cell(parts, at, parts.figures.lines.empty(), running);
  ++at;
  sheet.text({at, column::what}, "commission at that price");
  sheet.text({at, column::kind}, name_of(ProfitKind::commission));
  sheet.formula({at, column::out}, parts.rounded("N(" + price + ")*" + parts.result_at(row::rate)), Money());
  sheet.text({at, column::when}, parts.until_then(), look::text_apart);
  if (variance_line > 0)
    sheet.whole({at, column::estimate}, static_cast<std::int64_t>(variance_line), look::number);
  running_cell(parts, at, false, running);
  ++at;
}

}  // namespace

std::vector<VarianceLine> variance_lines(const ProfitFigures& figures) {
  std::vector<VarianceLine> extra, estimated;
  if (!figures.estimate) return extra;
  const ProfitEstimate& estimate = *figures.estimate;
  for (const EstimatedCost& cost : estimate.costs) estimated.push_back({cost.name, &cost, {}});
  if (estimate.commission_under) estimated[*estimate.commission_under].of_commission = true;
  // What was not expected: by its heading, else by its kind. The place of each in `extra`.
  std::map<std::size_t, std::size_t> by_heading;
  std::map<ProfitKind, std::size_t> by_kind;
  for (std::size_t i = 0; i < figures.lines.size(); ++i) {
    const ProfitLine& line = figures.lines[i];
    if (line.kind == ProfitKind::sale || line.kind == ProfitKind::due_back) continue;
    if (line.under.line) {
      estimated[*line.under.line].lines.push_back(i);
      continue;
    }
    const auto& heading = line.under.heading;
    const std::size_t place = heading ? by_heading.emplace(*heading, extra.size()).first->second
                                      : by_kind.emplace(line.kind, extra.size()).first->second;
    if (place == extra.size())
      extra.push_back({heading ? estimate.cost_headings[*heading] : name_of(line.kind), nullptr, {}});
    extra[place].lines.push_back(i);
  }
  // Not sold yet: the commission of a price typed in has a line to fall under.
  const bool sold = std::any_of(figures.lines.begin(), figures.lines.end(),
                                [](const ProfitLine& line) { return line.kind == ProfitKind::sale; });
  if (!estimate.commission_under && figures.state == ProfitFigures::State::owned && !sold) {
    const auto [found, added] = by_kind.emplace(ProfitKind::commission, extra.size());
    if (added) extra.push_back({name_of(ProfitKind::commission), nullptr, {}});
    extra[found->second].of_commission = true;
  }
  extra.insert(extra.end(), estimated.begin(), estimated.end());
  for (VarianceLine& line : extra) {
    Money expected, actual;
    if (line.estimated) expected = line.estimated->price.times(line.estimated->quantity);
    for (const std::size_t i : line.lines) actual -= figures.lines[i].amount;
    line.place = {!line.estimated || (is_zero(expected) && !is_zero(actual)), actual - expected};
  }
  std::stable_sort(extra.begin(), extra.end(), [](const VarianceLine& a, const VarianceLine& b) {
    return stands_before(a.place, b.place);
  });
  return extra;
}

namespace {

// Whoever only reads it gets what the papers say, upright; what the sheet reckons with stays beside it, not shown.
void lay_out(Parts& parts) {
  Sheet& sheet = *parts.entries;
  const bool to_read = parts.book.to_read();
  if (!to_read) sheet.landscape();
  sheet.widths(
      {10.5, 7, to_read ? 26.0 : 22.0, to_read ? 43.0 : 36.0, 11, 8.5, 8.5, 12, 13.5, 13.5, 10, 9, 13.5});
  sheet.frozen(heading_row + 1, 0, heading_row);
  sheet.text({0, 0}, "Every entry behind it", look::title);
  if (to_read) {
    // So many still fit on one page in letters of 8 points.
    constexpr std::size_t on_a_page = 52;
    if (parts.figures.lines.size() <= on_a_page) sheet.one_page();
    sheet.hidden_columns(column::quantity, column::each);
    sheet.hidden_columns(column::when, column::running);
    sheet.printed_columns(column::when);
    sheet.across({1, 0}, column::when, "In the order of the days. What was voided is left out.", look::note);
    return;
  }
  sheet.across({1, 0}, 13,
               "A cell with a pale fill and a dashed border may be changed: every sheet follows. What was "
               "voided is left out.",
               look::note);
}

}  // namespace

void write_entries(Parts& parts) {
  Sheet& sheet = *parts.entries;
  const ProfitFigures& figures = parts.figures;
  lay_out(parts);
  sheet.headings({heading_row, 0},
                 {"Day", "Entry", "Paper", "What", "Kind", "Source", "Quantity", "Each, as it counts", "Out",
                  "In", "When", "Variance line", "Cash after it"},
                 column::quantity, column::when);
  std::vector<std::size_t> variance_of(figures.lines.size(), 0);
  std::size_t number = 0, number_of_commission = 0;
  for (const VarianceLine& line : variance_lines(figures)) {
    ++number;
    if (line.of_commission) number_of_commission = number;
    for (const std::size_t i : line.lines) variance_of[i] = number;
  }
  std::uint32_t at = heading_row + 1;
  parts.line_first = {at, 0};
  Money running;
  for (std::size_t i = 0; i < figures.lines.size(); ++i, ++at) {
    const ProfitLine& line = figures.lines[i];
    running += line.amount;
    write_line(parts, at, line, variance_of[i]);
    running_cell(parts, at, i == 0, running);
    sheet.rows_done(at);
  }
  if (parts.owned() && !parts.sums.priced && !parts.book.to_read())
    write_sale_to_come(parts, at, running, number_of_commission);
  if (at == heading_row + 1) sheet.text({at, column::what}, "nothing recorded yet"), ++at;
  parts.line_last = {at - 1, 0};
}

}  // namespace nonrunner::reports::profit

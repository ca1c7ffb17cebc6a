#include "answers/shopping.h"

#include <algorithm>
#include <cmath>

#include "answers/budget.h"
#include "appraisal/fixes.h"
#include "appraisal/source.h"
#include "book/events/finding.h"
#include "book/questions/board.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

using LineKind = appraisal::EstimatedLine::Kind;

// What a salvage part of the line may cost so that s + bad x again + hours x hour = the cheapest other source: above it
// that one costs no more, the bad ones and the hours of pulling it counted. Absent without another.
std::optional<double> most_for_part(const appraisal::Job& job, const appraisal::Part& part) {
  std::optional<double> other;
  for (const appraisal::Source source : {appraisal::Source::fresh, appraisal::Source::reman})
    if (const auto& price = part.price[static_cast<std::size_t>(source)])
      other = std::min(other.value_or(price->mean()), price->mean());
  if (!other) return std::nullopt;
  const double pulling = part.pull_hours.mean() * job.shop.hour / std::max(1.0, part.qty);
  return *other - part.bad * appraisal::price_again(part).mean() - pulling;
}

// What a fix with used parts may cost so that it gains as much as the best other one or, where the fault need not be put
// right, as leaving it. Absent where there is neither.
std::optional<double> most_for_fix(const appraisal::Job& job, const appraisal::Fault& fault,
                                   const std::string& name) {
  const double interest = appraisal::interest_a_day(job, job.deal.asking);
  std::optional<double> other, own;
  if (!fault.must) other = 0;
  for (const appraisal::Fix& fix : fault.fixes) {
    const double gain = appraisal::gain_of(job, fault, fix, interest);
    if (fix.name == name)
      own = gain + fix.cash.mean();
    else
      other = std::max(other.value_or(gain), gain);
  }
  return own && other ? std::optional(*own - *other) : std::nullopt;
}

// Of one from a yard: above this another source is the better buy. Absent where the appraisal knows no other.
std::optional<Price> most_to_pay(const appraisal::Job& job, const appraisal::EstimatedLine& line,
                                 const Currency& currency) {
  if (line.source != "salvage") return std::nullopt;
  std::optional<double> most;
  for (const appraisal::Correction& correction : job.corrections)
    for (const appraisal::Part& part : correction.parts)
      if (correction.name == line.group && part.name == line.what) most = most_for_part(job, part);
  for (const appraisal::Fault& fault : job.faults)
    if (line.kind == LineKind::fix && fault.name == line.what) most = most_for_fix(job, fault, line.fix);
  return most ? std::optional(in_price(std::max(0.0, *most), currency)) : std::nullopt;
}

figures::ShoppingLine::Place place_of(const appraisal::EstimatedLine& line) {
  using Place = figures::ShoppingLine::Place;
  if (line.source == "salvage") return Place::yard;
  return line.source == "reman" || line.kind == LineKind::sublet ? Place::ordered : Place::counter;
}

figures::ShoppingLine shopping_line(const Budget& budget, const std::string& tag, const BudgetLine& line,
                                    const Currency& c) {
  figures::ShoppingLine shopping;
  shopping.place = place_of(line.estimate);
  shopping.vehicle = tag;
  shopping.what = line.estimate.fix.empty() ? line.estimate.what : line.estimate.fix;
  const bool pieces = line.by_piece() && line.follows;
  const bool begun = !pieces && line.to_come != line.expected;
  if (pieces) shopping.quantity = line.qty - line.pieces;
  // Of what is begun, such as work sent out, the rest.
  shopping.expected = pieces ? line.each : Price::of(line.to_come);
  shopping.price = begun ? shopping.expected : in_price(line.estimate.stated, c);
  shopping.core = in_price(line.estimate.core, c);
  shopping.after = line.estimate.after;
  shopping.reached = line.estimate.reached;
  shopping.bad = line.estimate.bad;
  shopping.again_is_new = line.estimate.again_is_new;
  if (shopping.bad > 0) shopping.again = in_money(line.estimate.again, c);
  shopping.note = line.estimate.group;
  shopping.certain = line.estimate.reached >= 1;
  shopping.source = line.estimate.source;
  shopping.most = most_to_pay(budget.job, line.estimate, c);
  return shopping;
}

// What only another cause would need: to be known in the yard, and no part of the cost to complete.
figures::ShoppingLine shopping_line(const Budget& budget, const std::string& tag, const OtherLine& line,
                                    const Currency& c) {
  figures::ShoppingLine shopping;
  shopping.place = place_of(line.estimate);
  shopping.vehicle = tag;
  shopping.what = line.estimate.what;
  shopping.quantity = Quantity::of(std::llround(line.estimate.qty * 1000));
  shopping.price = in_price(line.estimate.stated, c);
  shopping.core = in_price(line.estimate.core, c);
  shopping.source = line.estimate.source;
  shopping.most = most_to_pay(budget.job, line.estimate, c);
  shopping.other_cause = line.chance;
  shopping.note = line.estimate.group;
  shopping.certain = false;
  return shopping;
}

void add_lines(figures::ShoppingFigures& out, const Budget& budget, const std::string& tag) {
  out.vehicles.push_back({tag, budget.cause, budget.cause_is_noted, {}, budget.cash_to_come});
  for (const BudgetLine& line : budget.lines) {
    if (line.estimate.kind == LineKind::fees || line.estimate.kind == LineKind::opening_up)
      out.vehicles.back().beside += line.to_come;
    else if (!is_zero(line.to_come))
      out.lines.push_back(shopping_line(budget, tag, line, out.currency));
  }
  for (const OtherLine& line : budget.only_if)
    if (line.estimate.kind == LineKind::part || line.estimate.kind == LineKind::consumable)
      out.lines.push_back(shopping_line(budget, tag, line, out.currency));
}

}  // namespace

figures::ShoppingFigures shopping_figures(const book::Book& book, const std::string& tag, Day today) {
  figures::ShoppingFigures out;
  out.currency = book.currency();
  out.made_on = today;
  for (const book::BoardRow& row : book::board(book, today)) {
    // For a car in pieces nothing is bought any more.
    if (row.state != book::State::owned || row.in_pieces || (!tag.empty() && row.tag != tag)) continue;
    for (const book::DatedFinding& finding : book::findings(book, row.tag))
      for (const book::Fact& fact : finding.facts)
        if (fact.what == book::fact::not_there)
          out.not_there.push_back({finding.day, fact.value, row.tag, fact.name});
    for (const book::Waiting& each : book::tray(book, today, row.tag))
      out.waiting.push_back({row.tag, each.entry, each.total, each.what});
    if (const auto budget = budget_of(book, row.tag)) add_lines(out, *budget, row.tag);
  }
  return out;
}

}  // namespace nonrunner::answers

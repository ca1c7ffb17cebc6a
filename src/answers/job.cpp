#include "answers/job.h"

#include <fmt/format.h>

#include <cmath>

#include "answers/budget.h"
#include "appraisal/source.h"
#include "book/events/finding.h"
#include "book/ledger/settings.h"
#include "book/questions/board.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

using Kind = appraisal::EstimatedLine::Kind;

const char* group_of(const BudgetLine& line) {
  switch (line.estimate.kind) {
    case Kind::fix:
      return "fixes";
    case Kind::fees:
      return "fees";
    case Kind::own_heading:
    case Kind::trouble:
    case Kind::planned:
      return "discovery";
    default:
      return "correction";
  }
}

// What is still to come of a line of the budget follows from the sheet, as long as any can.
bool still_open(const book::VehicleFigures& figures, bool finished) {
  return figures.life.ended == 0 && !figures.still_brings && !finished;
}

void add_costs(figures::JobFigures& out, const book::Book& book, const book::VehicleFigures& figures,
               const std::optional<Budget>& budget) {
  const Currency& c = book.currency();
  figures::JobCost purchase;
  purchase.part_of = "purchase";
  purchase.what = "price paid";
  purchase.budgeted = budget.has_value();
  purchase.budget_price = budget ? in_price(budget->job.deal.asking, c) : Price{};
  purchase.actual = figures.price_paid;
  if (figures.life.bought != 0) out.costs.push_back(purchase);
  if (budget)
    for (std::size_t i = 0; i < budget->lines.size(); ++i) {
      const BudgetLine& line = budget->lines[i];
      figures::JobCost cost;
      cost.part_of = group_of(line);
      cost.what = line.estimate.what;
      cost.budgeted = line.in_estimate;
      cost.budget_quantity = line.qty;
      cost.budget_price = line.each;
      cost.to_complete = line.to_come;
      if (cost.budgeted && line.follows && still_open(figures, line.finished()))
        cost.follows =
            line.by_piece() ? figures::JobCost::Follows::pieces : figures::JobCost::Follows::amount;
      Quantity pieces;
      bool counted = false;
      for (std::size_t j = 0; j < budget->money.size(); ++j) {
        if (budget->money_under[j] != i || budget->money[j].after_sale) continue;
        cost.actual -= budget->money[j].amount;
        if (budget->money[j].quantity) {
          pieces += *budget->money[j].quantity;
          counted = true;
        }
      }
      if (counted && line.by_piece()) cost.quantity = pieces;
      out.costs.push_back(cost);
    }
  const auto money = budget ? budget->money : book::money_of(book, figures.tag);
  for (std::size_t i = 0; i < money.size(); ++i) {
    if (!book::is_cost(money[i].kind) || money[i].after_sale || (budget && budget->money_under[i])) continue;
    figures::JobCost cost;
    cost.part_of = money[i].kind == book::MoneyKind::fee && money[i].paper.empty() ? "fees" : "discovery";
    cost.what = money[i].what;
    cost.budgeted = false;
    cost.quantity = money[i].quantity;
    cost.actual = -money[i].amount;
    out.costs.push_back(cost);
  }
}

void add_hours(figures::JobFigures& out, const book::VehicleFigures& figures,
               const std::optional<Budget>& budget) {
  if (budget)
    for (const BudgetWork& work : budget->work) {
      figures::JobHours hours;
      hours.operation = work.estimate.operation;
      hours.budgeted = work.in_estimate;
      hours.budget = Hours::of(std::llround(work.estimate.hours * 1000));
      hours.actual = work.booked;
      hours.to_complete = Hours::of(std::llround(work.to_come * 1000));
      hours.follows = hours.budgeted && work.follows && still_open(figures, work.finished());
      if (hours.follows) hours.to_complete = std::max(Hours{}, hours.budget - hours.actual);
      out.hours.push_back(hours);
    }
  for (const book::OperationHours& each : figures.hours) {
    figures::JobHours hours;
    hours.operation = each.operation;
    hours.budgeted = false;
    hours.paid = each.paid;
    hours.actual = each.own;
    if (budget) {
      for (std::size_t i = 0; i < budget->worked.size(); ++i)
        if (budget->worked[i].operation == each.operation && budget->worked_under[i])
          hours.actual = hours.actual - budget->worked[i].own;
    }
    if (hours.actual > Hours{} || hours.paid > Hours{}) out.hours.push_back(hours);
  }
}

std::string in_percent(double chance) { return fmt::format("{:.3g} %", chance * 100); }

// When a line of the estimate is needed, and what a bad one from the yard costs again; empty where it is
// certain.
std::string when_needed(const appraisal::EstimatedLine& line, const Currency& currency) {
  std::string text;
  if (line.reached < 1)
    text = fmt::format("only if \"{}\" does not hold, {}", line.after, in_percent(line.reached));
  if (line.bad > 0)
    text +=
        fmt::format("{}if it is bad ({}): {} at {}", text.empty() ? "" : "; ", in_percent(line.bad),
                    line.again_is_new ? "new" : "another", in_money(line.again, currency).shown(currency));
  return text;
}

// "not there: radiator, at Cleave Yard" -> what it was, and where; absent for a note that does not begin so.
std::optional<std::pair<std::string, std::string>> looked_for_in_vain(const std::string& text) {
  static const std::string begins = "ot there";
  if ((text.rfind('n', 0) != 0 && text.rfind('N', 0) != 0) || text.compare(1, begins.size(), begins) != 0)
    return std::nullopt;
  const auto what = text.find_first_not_of(":,; ", 1 + begins.size());
  if (what == std::string::npos) return std::pair(text, std::string());
  const auto at = text.rfind(", at ");
  if (at == std::string::npos || at < what) return std::pair(text.substr(what), std::string());
  return std::pair(text.substr(what, at - what), text.substr(at + 5));
}

}  // namespace

figures::JobFigures job_figures(const book::Book& book, const std::string& tag, Day today) {
  const Currency& c = book.currency();
  const auto budget = budget_of(book, tag);
  const book::Expected expected = budget ? expected_of(*budget, c) : book::Expected{};
  const book::VehicleFigures figures = book::figures_of(book, tag, today, {}, expected);
  figures::JobFigures out;
  out.tag = tag;
  out.currency = c;
  out.made_on = today;
  if (figures.life.bought != 0) out.bought_on = figures.life.bought_day;
  if (figures.life.ended != 0) {
    out.ended_on = figures.life.ended_day;
    out.ended = figures.life.state == book::State::sold ? "Sold" : "Finished";
  }
  if (figures.still_brings) {
    out.in_pieces_since = figures.life.in_pieces_since;
    out.not_yet_recovered = figures.carried;
    out.still_brings = *figures.still_brings;
  }
  out.hour = book::hour(book);
  out.recovered = figures.recovered_before;
  out.selling_costs_so_far = figures.selling_costs;
  out.deposit_kept = figures.deposit_kept;
  out.break_even_price = figures.break_even_price;
  out.cost = figures.cost;
  if (budget) {
    out.description = budget->job.vehicle.description;
    out.complaint = budget->job.vehicle.complaint;
    out.cause = budget->cause + (budget->cause_is_noted ? "" : " (the likeliest, none was noted)");
    out.budget_on = budget->kept_on;
    out.commission_rate = expected.commission;
    out.selling_costs = expected.selling_costs;
    out.expected_price = in_money(budget->estimate.sale_price, c);
    out.holding_per_day = in_money(budget->estimate.holding_per_day, c);
  }
  add_costs(out, book, figures, budget);
  add_hours(out, figures, budget);
  for (const book::Due& due : figures.due) out.due.push_back({due.what, due.from, due.by, due.amount});
  for (const book::MayGoBack& each : book::may_go_back(book, today, tag))
    out.may_go_back.push_back({each.what, each.supplier, each.by, each.refund});
  for (const book::EntryId entry : figures.waiting)
    out.waiting.push_back(fmt::format("entry {} waits to be itemised", entry));
  if (!is_zero(figures.deposit_held))
    out.waiting.push_back("a buyer's deposit is held: " + figures.deposit_held.shown(c));
  return out;
}

namespace {

// Above this price of one a new part costs no more, the bad ones and the hours of pulling it counted: what a
// salvage one may cost so that s + bad x again + hours x hour = new. Absent without a new price.
std::optional<Price> most_to_pay(const appraisal::Job& job, const appraisal::EstimatedLine& line,
                                 const Currency& currency) {
  for (const appraisal::Correction& correction : job.corrections) {
    if (correction.name != line.group) continue;
    for (const appraisal::Part& part : correction.parts) {
      if (part.name != line.what) continue;
      const auto& fresh = part.price[static_cast<std::size_t>(appraisal::Source::fresh)];
      if (!fresh) return std::nullopt;
      const double pulling = part.pull_hours.mean() * job.shop.hour / std::max(1.0, part.qty);
      const double most = fresh->mean() - part.bad * appraisal::price_again(part).mean() - pulling;
      return most > 0 ? std::optional(in_price(most, currency)) : std::optional(Price{});
    }
  }
  return std::nullopt;
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
      if (const auto what = looked_for_in_vain(finding.text))
        out.not_there.push_back({finding.day, what->second, row.tag, what->first, ""});
    const auto budget = budget_of(book, row.tag);
    for (const book::Waiting& each : book::tray(book, today, row.tag))
      out.waiting.push_back(
          fmt::format("{}: entry {}, {} {}", row.tag, each.entry, each.total.shown(out.currency), each.what));
    if (!budget) continue;
    out.vehicles.push_back({row.tag, budget->cause, budget->cause_is_noted, {}, budget->cash_to_come});
    for (const BudgetLine& line : budget->lines) {
      if (line.estimate.kind == Kind::fees || line.estimate.kind == Kind::opening_up) {
        out.vehicles.back().beside += line.to_come;
        continue;
      }
      if (is_zero(line.to_come)) continue;
      figures::ShoppingLine shopping;
      using Place = figures::ShoppingLine::Place;
      shopping.place = line.estimate.source == "salvage" ? Place::yard
                       : line.estimate.source == "reman" || line.estimate.kind == Kind::sublet
                           ? Place::ordered
                           : Place::counter;
      shopping.vehicle = row.tag;
      shopping.what = line.estimate.fix.empty() ? line.estimate.what : line.estimate.fix;
      const bool pieces = line.by_piece() && line.follows;
      const bool begun = !pieces && line.to_come != line.expected;
      if (pieces) shopping.quantity = line.qty - line.pieces;
      // Of what is begun, such as work sent out, the rest.
      shopping.expected = pieces ? line.each : Price::of(line.to_come);
      shopping.price = begun ? shopping.expected : in_price(line.estimate.stated, out.currency);
      shopping.core = in_price(line.estimate.core, out.currency);
      shopping.needed = when_needed(line.estimate, out.currency);
      shopping.note = line.estimate.group;
      shopping.certain = line.estimate.reached >= 1;
      if (line.estimate.source == "salvage")
        shopping.most = most_to_pay(budget->job, line.estimate, out.currency);
      out.lines.push_back(shopping);
    }
    // What only another cause would need: to be known in the yard, and no part of the cost to complete.
    for (const OtherLine& line : budget->only_if) {
      if (line.estimate.kind != Kind::part && line.estimate.kind != Kind::consumable) continue;
      figures::ShoppingLine shopping;
      shopping.place = line.estimate.source == "salvage" ? figures::ShoppingLine::Place::yard
                       : line.estimate.source == "reman" ? figures::ShoppingLine::Place::ordered
                                                         : figures::ShoppingLine::Place::counter;
      shopping.vehicle = row.tag;
      shopping.what = line.estimate.what;
      shopping.quantity = Quantity::of(std::llround(line.estimate.qty * 1000));
      shopping.price = in_price(line.estimate.stated, out.currency);
      shopping.core = in_price(line.estimate.core, out.currency);
      shopping.needed = fmt::format("only if it is another cause, {}", in_percent(line.chance));
      shopping.note = line.estimate.group;
      shopping.certain = false;
      out.lines.push_back(shopping);
    }
  }
  return out;
}

}  // namespace nonrunner::answers

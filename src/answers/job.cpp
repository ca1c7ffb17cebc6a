#include "answers/job.h"

#include <algorithm>
#include <cmath>

#include "answers/budget.h"
#include "answers/links.h"
#include "answers/open_things.h"
#include "book/events/finding.h"
#include "book/ledger/settings.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

using LineKind = appraisal::EstimatedLine::Kind;

const char* group_of(const BudgetLine& line) {
  switch (line.estimate.kind) {
    case LineKind::fix:
      return "fixes";
    case LineKind::fees:
      return "fees";
    case LineKind::parting_out:
      return "parting out";
    case LineKind::own_heading:
    case LineKind::trouble:
    case LineKind::planned:
      return "discovery";
    default:
      return "correction";
  }
}

// What is still to come of a line of the budget follows from the sheet, as long as any can.
bool still_open(const book::VehicleFigures& figures, bool finished) {
  return figures.life.ended == 0 && !finished;
}

// Papers that wait to be itemised and change this line when they are: those that are booked under it, whose pieces
// nobody counted, and those under no line that are called much like it.
std::vector<figures::WaitingPaper> waits_for(const Budget& budget, std::size_t line,
                                             const std::vector<LineName>& names,
                                             const std::vector<book::EntryId>& waiting) {
  std::vector<figures::WaitingPaper> all;
  for (const PlacedMoney& money : budget.money) {
    if (std::find(waiting.begin(), waiting.end(), money.entry) == waiting.end()) continue;
    const bool under_it = money.place == line;
    const auto close = money.place ? std::vector<const LineName*>{} : close_names(names, money.what, false);
    const bool may_be = std::any_of(close.begin(), close.end(), [&](const LineName* each) {
      return each->name == budget.lines[line].estimate.what;
    });
    if (under_it || may_be) all.push_back({money.entry, -money.amount, !under_it});
  }
  return all;
}

void add_costs(figures::JobFigures& out, const book::Book& book, const book::VehicleFigures& figures,
               const std::optional<Budget>& budget) {
  const Currency& c = book.currency();
  figures::JobCost purchase;
  purchase.part_of = "purchase";
  purchase.what = "price paid";
  purchase.price_paid = true;
  purchase.budgeted = budget.has_value();
  purchase.budget_price = budget ? in_price(budget->job.deal.asking, c) : Price{};
  purchase.actual = figures.price_paid;
  if (figures.life.bought != 0) out.costs.push_back(purchase);
  if (budget) {
    const std::vector<LineName> names = line_names(book, figures.tag);
    for (std::size_t i = 0; i < budget->lines.size(); ++i) {
      const BudgetLine& line = budget->lines[i];
      figures::JobCost cost;
      cost.part_of = group_of(line);
      cost.what = line.estimate.what;
      // What is not certain is budgeted by its chance: the sheet says what it comes to if it is needed.
      if (line.in_estimate) cost.chance = line.chance(), cost.if_needed = line.if_needed;
      cost.budgeted = line.in_estimate;
      cost.budget_quantity = line.qty;
      cost.budget_price = line.each;
      cost.to_complete = line.to_come;
      if (cost.budgeted && line.follows && still_open(figures, line.finished()))
        cost.follows =
            line.by_piece() ? figures::JobCost::Follows::pieces : figures::JobCost::Follows::amount;
      Quantity pieces;
      bool counted = false;
      for (const PlacedMoney& money : budget->money) {
        if (money.place != i || money.after_sale) continue;
        cost.actual -= money.amount;
        if (money.quantity) {
          pieces += *money.quantity;
          counted = true;
        }
      }
      if (counted && line.by_piece()) cost.quantity = pieces;
      cost.waits = waits_for(*budget, i, names, figures.waiting);
      out.costs.push_back(cost);
    }
  }
  for (const PlacedMoney& money : placed_money(book, figures.tag, budget)) {
    if (!book::is_cost(money.kind) || money.after_sale || money.place) continue;
    figures::JobCost cost;
    cost.part_of = money.kind == book::MoneyKind::fee && money.paper.empty() ? "fees" : "discovery";
    cost.what = money.what;
    cost.budgeted = false;
    cost.quantity = money.quantity;
    cost.actual = -money.amount;
    if (std::find(figures.waiting.begin(), figures.waiting.end(), money.entry) != figures.waiting.end())
      cost.waits.push_back({money.entry, {}, false});
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
      for (const PlacedWork& worked : budget->worked)
        if (worked.operation == each.operation && worked.place) hours.actual = hours.actual - worked.own;
    }
    if (hours.actual > Hours{} || hours.paid > Hours{}) out.hours.push_back(hours);
  }
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
  if (figures.life.bought != 0) out.bought_on = figures.life.bought_said;
  if (figures.life.ended != 0) {
    out.ended_on = figures.life.ended_said;
    out.ended = figures.life.state == book::State::sold ? "Sold" : "Finished";
  }
  if (figures.still_brings) {
    out.in_pieces_since = figures.life.in_pieces_since;
    out.not_yet_recovered = figures.carried;
    out.still_brings = *figures.still_brings;
  }
  out.hour = figures.hour;
  out.recovered = figures.recovered_before;
  out.selling_costs_so_far = figures.selling_costs;
  out.deposit_kept = figures.deposit_kept;
  out.break_even_price = figures.break_even_price;
  out.cost = figures.cost;
  if (budget) {
    out.description = budget->job.vehicle.description;
    out.complaint = budget->job.vehicle.complaint;
    out.cause = budget->cause;
    out.cause_is_noted = budget->cause_is_noted;
    out.budget_on = budget->kept_on;
    out.commission_rate = expected.commission;
    out.selling_costs = expected.selling_costs;
    out.expected_price = in_money(budget->estimate.sale_price, c);
    out.holding_per_day = in_money(budget->estimate.holding_per_day, c);
  }
  add_costs(out, book, figures, budget);
  add_hours(out, figures, budget);
  out.due = figures.due;
  for (const book::DatedFinding& each : book::findings(book, tag))
    out.findings.push_back({each.day, each.text});
  for (const book::MayGoBack& each : book::may_go_back(book, today, tag))
    out.may_go_back.push_back({each.what, each.supplier, each.by, each.refund});
  out.waiting = waiting_things(figures);
  return out;
}

}  // namespace nonrunner::answers

#include "answers/profit.h"

#include <fmt/format.h>

#include <cmath>
#include <map>

#include "answers/budget.h"
#include "answers/open_things.h"
#include "book/events/named.h"
#include "book/ledger/settings.h"
#include "book/questions/vehicle_money.h"
#include "exact/hint.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

constexpr const char* price_paid = "price paid";
constexpr const char* costs_of_selling = "costs of selling";

std::string name_of(const BudgetLine& line) {
  return line.estimate.group == line.estimate.what ? line.estimate.what
                                                   : line.estimate.what + " (" + line.estimate.group + ")";
}
std::string name_of(const BudgetWork& work) {
  return work.estimate.group == work.estimate.operation
             ? work.estimate.operation
             : work.estimate.operation + " (" + work.estimate.group + ")";
}

// What was planned by hand after the purchase was not foreseen by the appraisal.
bool foreseen(const BudgetLine& line) {
  return line.in_estimate && line.estimate.kind != appraisal::EstimatedLine::Kind::planned;
}

figures::ProfitEstimate estimate_of(const Budget& budget, const Currency& currency) {
  figures::ProfitEstimate out;
  out.kept_on = budget.kept_on;
  out.cause = budget.cause;
  out.cause_is_noted = budget.cause_is_noted;
  const auto add_sum = [&](const char* name, double amount, const char* note) {
    figures::EstimatedCost cost;
    cost.name = name;
    cost.price = Price::of(in_money(amount, currency));
    cost.note = note;
    cost.by_piece = false;
    out.costs.push_back(cost);
  };
  add_sum(price_paid, budget.job.deal.asking, "asked");
  for (const BudgetLine& line : budget.lines) {
    if (!foreseen(line)) continue;
    const bool by_piece = line.by_piece();
    // A price for one to a thousandth of a cent, so that quantity x price gives the expected amount.
    figures::EstimatedCost cost;
    cost.name = name_of(line);
    cost.quantity = Quantity::of(std::llround(line.estimate.qty * 1000));
    cost.price = in_price(line.estimate.price, currency);
    cost.note = line.estimate.source;
    cost.by_piece = by_piece;
    out.costs.push_back(cost);
  }
  out.commission_under = costs_of_selling;
  add_sum(costs_of_selling, budget.estimate.selling, "");
  for (const BudgetWork& work : budget.work)
    if (work.in_estimate)
      out.hours.push_back({name_of(work), Hours::of(std::llround(work.estimate.hours * 1000))});
  out.hour = in_money(budget.estimate.hour, currency);
  out.sale_price = in_money(budget.estimate.sale_price, currency);
  if (budget.estimate.holding_per_day > 0)
    out.holding_per_day = in_money(budget.estimate.holding_per_day, currency);
  out.days = budget.estimate.days;
  return out;
}

// A car that was never bought has no profit and no loss.
void expect_bought(const std::string& tag, const book::Life& life) {
  if (life.state != book::State::considered && life.state != book::State::passed) return;
  throw hinted<Refusal>(fmt::format("workbook: found {} {}, expected a vehicle that was bought", tag,
                                    life.state == book::State::passed ? "passed on " + life.passed_day.iso()
                                                                      : "only considered"),
                        {Action::show, {{"tag", tag}}});
}

figures::ProfitFigures::State state_of(const book::Life& life) {
  using State = figures::ProfitFigures::State;
  switch (life.state) {
    case book::State::sold:
      return State::sold;
    case book::State::finished:
      return State::finished;
    default:
      return life.parted == 0 ? State::owned : State::in_pieces;
  }
}

// The line of the estimate that a line of money falls under; empty: none.
std::string under_which(const Budget& budget, std::size_t place) {
  const book::MoneyKind kind = budget.money[place].kind;
  if (kind == book::MoneyKind::purchase) return price_paid;
  if (kind == book::MoneyKind::selling_cost || kind == book::MoneyKind::commission) return costs_of_selling;
  if (!budget.money_under[place]) return "";
  const BudgetLine& line = budget.lines[*budget.money_under[place]];
  return foreseen(line) || !line.in_estimate ? name_of(line) : "";
}

void add_lines(figures::ProfitFigures& out, const book::Book& book, const std::optional<Budget>& budget) {
  const auto money = budget ? budget->money : book::money_of(book, out.tag);
  for (std::size_t i = 0; i < money.size(); ++i)
    out.lines.push_back(
        {money[i].day, money[i].entry, money[i].paper, money[i].what, money[i].kind, money[i].source,
         money[i].quantity, money[i].amount, money[i].after_sale, budget ? under_which(*budget, i) : "",
         money[i].without_paper,
         // What is drawn was bought before, on the shelf's own papers.
         money[i].paper.empty() && money[i].line.empty() && money[i].kind == book::MoneyKind::consumable});
}

void add_hours(figures::ProfitFigures& out, const book::Book& book, const std::optional<Budget>& budget) {
  out.hours = budget ? budget->worked : book::work_of(book, out.tag);
  for (std::size_t i = 0; budget && i < out.hours.size(); ++i)
    if (const auto under = budget->worked_under[i]) out.hours[i].estimate = name_of(budget->work[*under]);
}

// What the appraisal in force still expects of a car that is not sold.
void add_what_is_to_come(figures::ProfitFigures& out, const Budget& ahead) {
  const book::Expected expected = expected_of(ahead, out.currency);
  out.commission_rate = expected.commission;
  if (ahead.appraised) out.expected_price = in_money(ahead.estimate.sale_price, out.currency);
  if (!is_zero(expected.to_complete + expected.selling_costs))
    out.to_come = {expected.to_complete, expected.selling_costs};
}

}  // namespace

figures::ProfitFigures profit_figures(const book::Book& book, const std::string& tag, Day today) {
  const book::VehicleFigures figures = book::figures_of(book, tag, today);
  expect_bought(tag, figures.life);
  figures::ProfitFigures out;
  out.tag = tag;
  out.currency = book.currency();
  out.made_on = today;
  out.state = state_of(figures.life);
  if (figures.life.bought) out.bought_on = figures.life.bought_day;
  if (figures.life.ended) out.sold_on = figures.life.ended_day;
  out.open = open_things(figures);
  out.advertised = book::adverts_of(book, tag);
  for (const book::NamedFact& fact : book::named_facts(book, tag, today)) {
    if (fact.fact == "seller") out.seller = fact.value;
    if (fact.fact == "buyer") out.buyer = fact.value;
    if (fact.fact == "odometer")
      (fact.event == "sell" ? out.odometer_sold : out.odometer_bought) = fact.value;
  }
  out.hour = figures.hour;
  out.commission_rate = figures.commission_rate;  // of a sold car
  if (figures.distance > Distance{}) out.distance = figures.distance.shown() + " " + book.distance_unit();
  // What is still to come looks forward; what it is measured against was kept by the day of the purchase.
  const auto ahead = budget_of(book, tag);
  auto budget = budget_at_purchase(book, tag);
  if (budget && !budget->appraised) budget.reset();
  add_lines(out, book, budget);
  add_hours(out, book, budget);
  if (budget) {
    out.description = budget->job.vehicle.description;
    out.complaint = budget->job.vehicle.complaint;
    out.vin = budget->job.vehicle.vin;
    out.estimate = estimate_of(*budget, out.currency);
  }
  if (ahead && out.state == figures::ProfitFigures::State::owned) add_what_is_to_come(out, *ahead);
  out.cash_profit = figures.cash_profit;
  return out;
}

}  // namespace nonrunner::answers

#include "answers/profit.h"

#include <fmt/format.h>

#include <cmath>
#include <map>

#include "answers/budget.h"
#include "answers/kept_job.h"
#include "answers/open_things.h"
#include "book/events/appraisals.h"
#include "book/events/named.h"
#include "book/ledger/settings.h"
#include "book/questions/vehicle_money.h"
#include "exact/hint.h"
#include "figures/opinion.h"

namespace nonrunner::answers {

namespace {

std::string name_of(const BudgetLine& line) {
  return line.estimate.group == line.estimate.what ? line.estimate.what
                                                   : line.estimate.what + " (" + line.estimate.group + ")";
}
std::string name_of(const BudgetWork& work) {
  return work.estimate.group == work.estimate.operation
             ? work.estimate.operation
             : work.estimate.operation + " (" + work.estimate.group + ")";
}

// An estimate, and where in it each line of its budget stands.
struct Standard {
  figures::ProfitEstimate estimate;
  std::size_t price_paid = 0, costs_of_selling = 0;
  std::vector<figures::UnderEstimate> lines, work;  // as the budget's
};

std::size_t add_sum(figures::ProfitEstimate& out, const char* name, Money amount, const char* note) {
  figures::EstimatedCost cost;
  cost.name = name;
  cost.price = Price::of(amount);
  cost.note = note;
  cost.by_piece = false;
  out.costs.push_back(cost);
  return out.costs.size() - 1;
}

template <class List, class One>
std::size_t add(List& list, One&& one) {
  list.push_back(std::forward<One>(one));
  return list.size() - 1;
}

void add_lines(Standard& out, const Budget& budget, const Currency& currency) {
  for (const BudgetLine& line : budget.lines) {
    figures::UnderEstimate& under = out.lines.emplace_back();
    if (!line.in_estimate) {
      under.heading = add(out.estimate.cost_headings, name_of(line));
      continue;
    }
    const bool by_piece = line.by_piece();
    // A price for one to a thousandth of a cent, so that quantity x price gives the expected amount.
    figures::EstimatedCost cost;
    cost.name = name_of(line);
    cost.quantity = Quantity::of(std::llround(line.estimate.qty * 1000));
    cost.price = in_price(line.estimate.price, currency);
    cost.note = line.estimate.source;
    cost.by_piece = by_piece;
    under.line = add(out.estimate.costs, cost);
  }
}

void add_work(Standard& out, const Budget& budget) {
  for (const BudgetWork& work : budget.work) {
    figures::UnderEstimate& under = out.work.emplace_back();
    if (work.in_estimate)
      under.line =
          add(out.estimate.hours,
              figures::EstimatedHours{name_of(work), Hours::of(std::llround(work.estimate.hours * 1000))});
    else
      under.heading = add(out.estimate.hours_headings, name_of(work));
  }
}

Standard standard_of(const Budget& budget, const Currency& currency) {
  Standard standard;
  figures::ProfitEstimate& out = standard.estimate;
  out.kept_on = budget.kept_on;
  out.cause = budget.cause;
  out.cause_is_noted = budget.cause_is_noted;
  standard.price_paid = add_sum(out, "price paid", in_money(budget.job.deal.asking, currency), "asked");
  add_lines(standard, budget, currency);
  standard.costs_of_selling =
      add_sum(out, "costs of selling", in_money(budget.estimate.selling, currency), "");
  out.commission_under = standard.costs_of_selling;
  add_work(standard, budget);
  out.hour = in_money(budget.estimate.hour, currency);
  out.sale_price = in_money(budget.estimate.sale_price, currency);
  if (budget.estimate.holding_per_day > 0)
    out.holding_per_day = in_money(budget.estimate.holding_per_day, currency);
  out.days = budget.estimate.days;
  return standard;
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

figures::UnderEstimate under_which(const Standard& standard, const PlacedMoney& money) {
  const book::MoneyKind kind = money.kind;
  if (kind == book::MoneyKind::purchase) return {standard.price_paid};
  if (kind == book::MoneyKind::selling_cost || kind == book::MoneyKind::commission)
    return {standard.costs_of_selling};
  return money.place ? standard.lines[*money.place] : figures::UnderEstimate{};
}

void add_lines(figures::ProfitFigures& out, const book::Book& book, const std::optional<Budget>& budget,
               const Standard& standard) {
  for (const PlacedMoney& money : placed_money(book, out.tag, budget))
    out.lines.push_back(
        {money.day, money.entry, money.paper, money.what, money.kind, money.source, money.quantity,
         money.amount, money.after_sale, budget ? under_which(standard, money) : figures::UnderEstimate{},
         money.without_paper,
         // What is drawn was bought before, on the shelf's own papers.
         money.paper.empty() && money.line.empty() && money.kind == book::MoneyKind::consumable});
}

void add_hours(figures::ProfitFigures& out, const book::Book& book, const std::optional<Budget>& budget,
               const Standard& standard) {
  if (!budget) {
    out.hours = book::work_of(book, out.tag);
    return;
  }
  for (const PlacedWork& worked : budget->worked) {
    out.hours.push_back(worked);
    if (worked.place) out.hours.back().under = standard.work[*worked.place];
  }
}

figures::NoEstimate why_no_estimate(const book::Book& book, const std::string& tag) {
  figures::NoEstimate none;
  const auto all = book::appraisals_of(book, tag);
  if (book::appraisal_in_force(book, tag))
    none.cannot_be_put_right = true;
  else if (!all.empty())
    none.first_kept_on = all.front().day;
  return none;
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
  if (figures.life.bought) out.bought_on = figures.life.bought_said;
  if (figures.life.ended) out.sold_on = figures.life.ended_said;
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
  const auto budget = budget_at_purchase(book, tag);
  const Standard standard = budget ? standard_of(*budget, out.currency) : Standard{};
  add_lines(out, book, budget, standard);
  add_hours(out, book, budget, standard);
  const appraisal::Vehicle vehicle = described(book, tag);
  out.description = vehicle.description;
  out.complaint = vehicle.complaint;
  out.vin = vehicle.vin;
  if (budget)
    out.estimate = standard.estimate;
  else
    out.no_estimate = why_no_estimate(book, tag);
  if (ahead && out.state == figures::ProfitFigures::State::owned) add_what_is_to_come(out, *ahead);
  out.cash_profit = figures.cash_profit;
  return out;
}

}  // namespace nonrunner::answers

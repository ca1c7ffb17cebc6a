#include "appraisal/estimate.h"

#include "appraisal/chain.h"
#include "appraisal/source.h"

namespace nonrunner::appraisal {

namespace {

void add_correction(Estimate& estimate, const Job& job, const Correction& correction, double reached,
                    double pace) {
  using Kind = EstimatedLine::Kind;
  for (const Operation& operation : correction.operations)
    estimate.work.push_back({correction.name, operation.name, operation.hours.mean() * pace * reached});
  for (const Part& part : correction.parts) {
    const SourceChoice choice = choose_source(part, job.shop);
    estimate.lines.push_back({Kind::part, correction.name, part.name, name_of(choice.source), part.qty,
                              choice.cash / part.qty * reached});
    if (choice.hours > 0)
      estimate.work.push_back({correction.name, "pulling " + part.name, choice.hours * pace * reached});
  }
  for (const Consumable& each : correction.consumables)
    estimate.lines.push_back(
        {Kind::consumable, correction.name, each.name, "", each.qty, each.price.mean() * reached});
  for (const Sublet& each : correction.sublets)
    estimate.lines.push_back({Kind::sublet, correction.name, each.name, "", 1, each.price.mean() * reached});
}

}  // namespace

std::optional<Estimate> estimate_of(const Courses& courses, std::size_t cause) {
  using Kind = EstimatedLine::Kind;
  const Job& job = courses.job();
  // Troubles are not part of the budget of a cause: what of them is found is a discovery of its own.
  const auto figures = courses.figures(cause, 0, Course::put_right);
  if (!figures) return std::nullopt;
  Estimate estimate;
  estimate.cause = job.causes[cause].name;
  const double pace = courses.pace();
  if (const double fees = job.deal.fees.mean(); fees > 0)
    estimate.lines.push_back({Kind::fees, "fees", "fees", "", 1, fees});
  if (const double cash = job.opening_up.cash.mean(); cash > 0)
    estimate.lines.push_back({Kind::opening_up, opening_up, opening_up, "", 1, cash});
  estimate.work.push_back({opening_up, opening_up, courses.opening_hours()});
  for (const Step& step : courses.chain(cause).steps)
    add_correction(estimate, job, job.corrections[step.correction], step.reached, pace);
  const FixPlan& fixes = courses.fixes();
  for (std::size_t i = 0; i < job.faults.size(); ++i) {
    if (!fixes.choices[i].fix) continue;
    const Fix& fix = job.faults[i].fixes[*fixes.choices[i].fix];
    estimate.lines.push_back({Kind::fix, job.faults[i].name, fix.name, fix.source, 1, fix.cash.mean()});
    estimate.work.push_back({job.faults[i].name, fix.name, fix.hours.mean() * pace});
  }
  estimate.sale_price = figures->brings;
  estimate.commission_rate = job.sale.rate;
  estimate.selling = job.sale.costs.mean() + job.sale.rate * figures->brings;
  estimate.fees = job.deal.fees.mean();
  estimate.hour = job.shop.hour;
  estimate.holding_per_day = job.shop.holding_per_day;
  estimate.days = figures->days;
  estimate.own_hours = figures->own_hours;
  estimate.cash_profit_less_price = figures->cash - estimate.fees - job.opening_up.cash.mean();
  return estimate;
}

}  // namespace nonrunner::appraisal

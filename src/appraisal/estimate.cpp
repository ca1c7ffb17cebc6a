#include "appraisal/estimate.h"

#include "appraisal/chain.h"
#include "appraisal/source.h"

namespace nonrunner::appraisal {

namespace {

EstimatedLine line_of(EstimatedLine::Kind kind, const std::string& group, const std::string& what, double qty,
                      double stated) {
  EstimatedLine line;
  line.kind = kind;
  line.group = group;
  line.what = what;
  line.qty = qty;
  line.price = line.stated = stated;
  return line;
}

// `after`: the correction that did not hold, where this one is come to only then.
void add_correction(Estimate& estimate, const Needs& needs, double reached, const std::string& after) {
  for (EstimatedLine line : needs.lines) {
    line.price *= reached;
    line.reached = reached;
    line.after = after;
    estimate.lines.push_back(std::move(line));
  }
  for (const EstimatedWork& work : needs.work)
    estimate.work.push_back({work.group, work.operation, work.hours * reached});
}

}  // namespace

Needs needs_of(const Job& job, const Correction& correction) {
  using Kind = EstimatedLine::Kind;
  const double pace = job.shop.pace.mean();
  Needs needs;
  double pulling = 0;
  for (const Operation& operation : correction.operations)
    needs.work.push_back({correction.name, operation.name, operation.hours.mean() * pace});
  for (const Part& part : correction.parts) {
    const SourceChoice choice = choose_source(part, job.shop);
    EstimatedLine line = line_of(Kind::part, correction.name, part.name, part.qty,
                                 part.price[static_cast<std::size_t>(choice.source)]->mean());
    line.source = name_of(choice.source);
    line.price = choice.cash / part.qty;
    line.core = part.core.mean();
    if (choice.source == Source::salvage && part.bad > 0) {
      line.bad = part.bad;
      line.again = price_again(part).mean();
      line.again_is_new = part.price[static_cast<std::size_t>(Source::fresh)].has_value();
    }
    needs.lines.push_back(std::move(line));
    pulling += choice.hours * pace;
  }
  for (const Consumable& each : correction.consumables)
    needs.lines.push_back(line_of(Kind::consumable, correction.name, each.name, each.qty, each.price.mean()));
  for (const Sublet& each : correction.sublets)
    needs.lines.push_back(line_of(Kind::sublet, correction.name, each.name, 1, each.price.mean()));
  if (pulling > 0) needs.work.push_back({correction.name, pulling_parts, pulling});
  return needs;
}

std::optional<Estimate> estimate_of(const Courses& courses, std::size_t cause) {
  using Kind = EstimatedLine::Kind;
  const Job& job = courses.job();
  // Troubles are not part of the budget of a cause: what of them is found is a discovery of its own.
  const auto path = courses.best_path(cause, 0, Course::put_right);
  if (!path) return std::nullopt;
  const CourseFigures figures = courses.figures(cause, 0, *path);
  Estimate estimate;
  estimate.cause = job.causes[cause].name;
  const double pace = courses.pace();
  if (const double fees = job.deal.fees.mean(); fees > 0)
    estimate.lines.push_back(line_of(Kind::fees, "fees", "fees", 1, fees));
  if (const double cash = courses.opening_cash(cause); cash > 0)
    estimate.lines.push_back(line_of(Kind::opening_up, opening_up, opening_up, 1, cash));
  estimate.work.push_back({opening_up, opening_up, courses.opening_hours(cause)});
  std::string before;
  for (std::size_t i = 0; i < path->tried; ++i) {
    const Step& step = courses.chain(cause).steps[i];
    const Correction& correction = job.corrections[step.correction];
    add_correction(estimate, needs_of(job, correction), step.reached, before);
    before = correction.name;
  }
  const FixPlan& fixes = courses.fixes();
  for (std::size_t i = 0; i < job.faults.size(); ++i) {
    if (!fixes.choices[i].fix) continue;
    const Fix& fix = job.faults[i].fixes[*fixes.choices[i].fix];
    // One line of money and one of hours a fault, under its name: what is bought is called after it.
    estimate.lines.push_back(line_of(Kind::fix, job.faults[i].name, job.faults[i].name, 1, fix.cash.mean()));
    estimate.lines.back().source = fix.source;
    estimate.lines.back().fix = fix.name;
    estimate.work.push_back({job.faults[i].name, job.faults[i].name, fix.hours.mean() * pace});
  }
  estimate.sale_price = figures.brings;
  estimate.commission_rate = job.sale.rate;
  estimate.selling = job.sale.costs.mean() + job.sale.rate * figures.brings;
  estimate.fees = job.deal.fees.mean();
  estimate.hour = job.shop.hour;
  estimate.holding_per_day = job.shop.holding_per_day;
  estimate.days = figures.days;
  return estimate;
}

}  // namespace nonrunner::appraisal

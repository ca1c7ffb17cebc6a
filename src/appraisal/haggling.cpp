#include "appraisal/haggling.h"

#include <algorithm>
#include <cmath>

namespace nonrunner::appraisal {

std::vector<CostToName> costs_to_name(const Courses& courses, const Beliefs& beliefs, const Outlook& outlook,
                                      bool put_right) {
  const Job& job = courses.job();
  const double hour = job.shop.hour * courses.pace();
  std::vector<CostToName> costs;
  const auto name = [&](std::string what, double amount, double chance, bool counted = true) {
    if (amount > 0 && chance > 0) costs.push_back({std::move(what), amount, chance, counted});
  };
  for (std::size_t c = 0; c < job.causes.size(); ++c) {
    const auto path = courses.best_path(c, 0, Course::put_right);
    if (!path || beliefs.cause[c] < hardly_possible) continue;
    double cost = 0;
    for (std::size_t i = 0; i < path->tried; ++i) {
      const Step& step = courses.chain(c).steps[i];
      const CorrectionCost& of = courses.correction(c, step.correction);
      cost += step.reached * (of.cash + of.hours * hour);
    }
    name(job.causes[c].name + ": " + job.corrections[*job.causes[c].correction].name, cost, beliefs.cause[c],
         put_right);
  }
  for (std::size_t j = 0; j < job.troubles.size(); ++j)
    name(job.troubles[j].name,
         job.troubles[j].cash.mean() + job.troubles[j].hours.mean() * hour + job.troubles[j].takes_off.mean(),
         beliefs.trouble[j], put_right);
  for (std::size_t i = 0; i < job.faults.size(); ++i) {
    const Fault& fault = job.faults[i];
    const auto fix = courses.fixes().choices[i].fix;
    if (fix)
      name(fault.name + ": " + fault.fixes[*fix].name,
           fault.fixes[*fix].cash.mean() + fault.fixes[*fix].hours.mean() * hour, 1, put_right);
    else
      name(fault.name + ", taken off by a buyer", fault.takes_off.mean(), 1, put_right);
  }
  name("fees on purchase", job.deal.fees.mean(), 1);
  double opening = 0;
  for (std::size_t c = 0; c < job.causes.size(); ++c)
    opening += beliefs.cause[c] * (courses.opening_cash(c) + courses.opening_hours(c) * job.shop.hour);
  name("opening up to find the cause", opening, 1);
  name("storage and insurance until it is sold", outlook.days * job.shop.holding_per_day, 1);
  name("costs of the sale", job.sale.costs.mean() + outlook.brings * job.sale.rate, 1);
  std::stable_sort(costs.begin(), costs.end(), [](const CostToName& a, const CostToName& b) {
    return a.chance * a.amount > b.chance * b.amount;
  });
  return costs;
}

std::optional<double> first_figure(double asking, double walk_away) {
  if (!(walk_away > 0) || asking <= walk_away) return std::nullopt;
  const double said = std::max(walk_away - (asking - walk_away), walk_away / 2);
  // Two figures that count: nobody believes an offer of 542.42.
  const double step = std::pow(10.0, std::floor(std::log10(said)) - 1);
  const double below = std::floor(said / step) * step;
  return below < walk_away / 2 ? below + step : below;
}

}  // namespace nonrunner::appraisal

#include "appraisal/haggling.h"

#include <algorithm>

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
    double cost = 0;
    for (const Step& step : courses.chain(c).steps) {
      const CorrectionCost& of = courses.correction(step.correction);
      cost += step.reached * (of.cash + of.hours * hour);
    }
    if (job.causes[c].correction)
      name(job.corrections[*job.causes[c].correction].name + ", if " + job.causes[c].name, cost,
           beliefs.cause[c], put_right);
  }
  for (std::size_t j = 0; j < job.troubles.size(); ++j)
    name(job.troubles[j].name + ", put right",
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
  name("opening up to find the cause", job.opening_up.cash.mean() + job.opening_up.hours.mean() * hour, 1);
  name("storage and insurance until it is sold", outlook.days * job.shop.holding_per_day, 1);
  name("costs of the sale", job.sale.costs.mean() + outlook.brings * job.sale.rate, 1);
  std::stable_sort(costs.begin(), costs.end(),
                   [](const CostToName& a, const CostToName& b) { return a.amount > b.amount; });
  return costs;
}

}  // namespace nonrunner::appraisal

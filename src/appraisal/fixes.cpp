#include "appraisal/fixes.h"

namespace nonrunner::appraisal {

double gain_of(const Job& job, const Fault& fault, const Fix& fix) {
  const double hour = job.shop.hour + 7 * job.shop.holding_per_day / job.shop.hours_per_week;
  return fix.restores * fault.takes_off.mean() * (1 - job.sale.rate) - fix.cash.mean() -
         fix.hours.mean() * job.shop.pace.mean() * hour;
}

FixPlan best_fixes(const Job& job) {
  FixPlan plan;
  for (const Fault& fault : job.faults) {
    FixChoice choice;
    for (std::size_t i = 0; i < fault.fixes.size(); ++i) {
      const double gain = gain_of(job, fault, fault.fixes[i]);
      choice.gains.push_back(gain);
      const bool better = choice.fix ? gain > choice.gain : fault.must || gain > 0;
      if (!better) continue;
      choice.fix = i;
      choice.gain = gain;
    }
    plan.still_off += fault.takes_off.mean() * (choice.fix ? 1 - fault.fixes[*choice.fix].restores : 1);
    if (choice.fix) {
      plan.cash += fault.fixes[*choice.fix].cash.mean();
      plan.hours += fault.fixes[*choice.fix].hours.mean();
    }
    plan.choices.push_back(std::move(choice));
  }
  return plan;
}

}  // namespace nonrunner::appraisal

#include "appraisal/fixes.h"

#include "appraisal/source.h"

namespace nonrunner::appraisal {

double interest_a_day(const Job& job, double price) {
  return job.shop.money_rate / 365 * (paid_at(job.deal, price) + job.deal.fees.mean());
}

double gain_of(const Job& job, const Fault& fault, const Fix& fix, double interest) {
  return fix.restores * fault.takes_off.mean() * (1 - job.sale.rate) - fix.cash.mean() -
         fix.hours.mean() * (job.shop.pace.mean() * job.shop.hour +
                             days_of_an_hour(job.shop) * day_cost(job.shop, interest));
}

FixPlan best_fixes(const Job& job) { return best_fixes(job, interest_a_day(job, job.deal.asking)); }

FixPlan best_fixes(const Job& job, double interest) {
  FixPlan plan;
  for (const Fault& fault : job.faults) {
    FixChoice choice;
    for (std::size_t i = 0; i < fault.fixes.size(); ++i) {
      const double gain = gain_of(job, fault, fault.fixes[i], interest);
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

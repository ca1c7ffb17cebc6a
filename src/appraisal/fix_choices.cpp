#include "appraisal/fix_choices.h"

#include "appraisal/fixes.h"

namespace nonrunner::appraisal {

std::vector<ChoiceClass> fix_choices(const Job& job) {
  const double interest = interest_a_day(job, job.deal.asking);
  std::vector<ChoiceClass> classes;
  for (const Fault& fault : job.faults) {
    ChoiceClass one{fault.name, {}};
    if (!fault.must) one.choices.push_back({leave_it, 0, 0, 0});
    for (const Fix& fix : fault.fixes)
      one.choices.push_back({fix.name, fix.hours.mean() * job.shop.pace.mean(), fix.cash.mean(),
                             gain_of(job, fault, fix, interest)});
    classes.push_back(std::move(one));
  }
  return classes;
}

const Fix* fix_of(const Fault& fault, std::size_t pick) {
  const std::size_t first = fault.must ? 0 : 1;
  return pick < first ? nullptr : &fault.fixes[pick - first];
}

}  // namespace nonrunner::appraisal

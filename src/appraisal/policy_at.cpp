#include "appraisal/policy_at.h"

#include "appraisal/points.h"

namespace nonrunner::appraisal {

Policy policy_at(const Job& job, const SoundValue& sound, double price) {
  const Beliefs now = posterior(job);
  const std::vector<double> chances = state_chances(job, now);
  Draws draws(job, sound, points_in_a_case(job, now, points_default));
  return Buying(job, sound, draws, {}, chances).policy(chances, price);
}

}  // namespace nonrunner::appraisal

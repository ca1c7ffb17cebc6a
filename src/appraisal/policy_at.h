// What a purchase at a price rests on, without the rest of the appraisal: the most profitable policy that holds the aims
// there, as things are known in the job.
#pragma once
#include "appraisal/buying.h"

namespace nonrunner::appraisal {

Policy policy_at(const Job&, const SoundValue&, double price);

}  // namespace nonrunner::appraisal

// The appraisal of a job: a pure function. The same job, sound value and number of points give the same
// figures.
#pragma once
#include "appraisal/appraisal.h"

namespace nonrunner::appraisal {

// Throws Refusal where the tests are too many to roll back, or the uncertain amounts too many to draw.
// 1 <= points <= points_max.
Appraisal appraise(const Job&, const SoundValue&, std::size_t points = points_default);

}  // namespace nonrunner::appraisal

// The appraisal of a job: a pure function. The same job, sound value and number of points give the same
// figures.
#pragma once
#include "appraisal/appraisal.h"
#include "appraisal/points.h"

namespace nonrunner::appraisal {

// `screen` leaves out what moves the answer, which is much work and stands in the detail only; `along` is that with
// the verdict at every price, for where no more can be asked.
enum class Extent { whole, screen, along };

// Throws Refusal where the tests are too many to roll back, or the uncertain amounts too many to draw.
// `points`: about so many in all, counting that every path of a case is drawn; the same number, a power of two,
// in each case and way that its corrections turn out, but for unlikely ones among very many (points.h);
// 1 <= points <= points_max.
Appraisal appraise(const Job&, const SoundValue&, std::size_t points = points_default,
                   Extent = Extent::whole);

}  // namespace nonrunner::appraisal

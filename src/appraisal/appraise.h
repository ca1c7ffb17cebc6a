// The appraisal of a job: a pure function. The same job, sound value and number of points give the same
// figures.
#pragma once
#include "appraisal/appraisal.h"

namespace nonrunner::appraisal {

constexpr std::size_t points_default = 65536;
constexpr std::size_t points_min = 64;  // fewer say nothing of a chance of one in twenty
constexpr std::size_t points_max = 1u << 24;

// `screen` leaves out what moves the answer, which is much work and stands in the detail only; `along` is that with
// the verdict at every price, for where no more can be asked.
enum class Extent { whole, screen, along };

// Throws Refusal where the tests are too many to roll back, or the uncertain amounts too many to draw.
// `points`: about so many in all, counting that every path of a case is drawn; the same number, a power of two,
// in each case and way that its corrections turn out; 1 <= points <= points_max.
Appraisal appraise(const Job&, const SoundValue&, std::size_t points = points_default,
                   Extent = Extent::whole);

// How many points are drawn in each case. However likely a trouble is, 0 and 1 among it: were there more points where
// a trouble cannot be, a limit by the chance of a loss could rise by their grain once it can.
std::size_t points_in_a_case(const Job&, const Beliefs&, std::size_t points);

}  // namespace nonrunner::appraisal

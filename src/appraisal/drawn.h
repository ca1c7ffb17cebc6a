// One outcome of a path as drawn values: what the formula of appraisal/courses.h gives as a mean, at each
// point. Known to be right by the means, which are known by formula, by single amounts, and by a second,
// plain writing of the model (tests/appraisal/distribution.cpp).
#pragma once
#include <optional>
#include <vector>

#include "appraisal/courses.h"
#include "appraisal/draws.h"
#include "appraisal/points.h"

namespace nonrunner::appraisal {

// One value a point, the opening up in all of them, the price and what is paid with it in none.
struct Drawn {
  std::vector<double> cash;   // money in less money out, holding included
  std::vector<double> hours;  // own, really taken
  std::vector<double> days;
  std::vector<double> outlay;  // paid before the money comes, deposits included, holding left out
};

// Of a case of this cause without troubles.
Drawn drawn(Draws&, const SoundValue&, const Courses&, std::size_t cause, const Path&, const PathOutcome&);

// By what these troubles change a case that has none: sold as found, or put right.
Drawn drawn_troubles(Draws&, const Job&, unsigned present, bool put_right);

// For each of these points what may be paid for the car, fees aside, so that its cash profit is zero. Of all that was
// drawn at all points; `more`: what troubles change, if anything.
std::vector<double> break_even_payments(Draws&, const Job&, const Drawn&, const Drawn* more, Stretch);

}  // namespace nonrunner::appraisal

// Prices that answer whatever a seller names, without the model at hand: up to the walk-away price W buy or
// test first, from there to the with-tests price X test first, above X offer less.
#pragma once
#include <optional>

#include "appraisal/plan.h"

namespace nonrunner::appraisal {

// X: the highest price, in the smallest coin, at which the plan gains what a test must gain over what is left
// without this price (the other offers, walking away); never below `walk_away`.
double with_tests_price(Planning&, double walk_away);

// T: the lowest price from 0 on from which a test comes first at every price up to X. Absent where there is
// no such price, or it is not a single one: an aim may forbid after a look what it allows unseen. With the
// aim for profit alone it is found exactly; else prices are tried in equal steps, so that a short stretch
// between two of them may be missed.
std::optional<double> test_from_price(Planning&, double walk_away, double with_tests);

}  // namespace nonrunner::appraisal

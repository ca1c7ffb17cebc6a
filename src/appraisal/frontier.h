// From zero hours up: the best gain at each budget of own hours, which fix comes next, and what each further
// hour earns. Exact at every budget (appraisal/undominated.h): not a ranking that only happens to be good.
#pragma once
#include <optional>
#include <vector>

#include "appraisal/choice.h"

namespace nonrunner::appraisal {

// Every budget of hours at which the best gain rises, in order: hours and gain both rise from set to set. The
// first has the fewest hours that what must be put right needs; the last is the best without a limit on
// hours. `cash`: a limit on the cash of the whole set. Empty where that limit alone rules everything out.
// Throws Refusal where the sets are too many.
std::vector<ChoiceSet> frontier(const std::vector<ChoiceClass>&, std::optional<double> cash);

// The steps that a person works through: those sets of the frontier from which each further hour earns less
// than the hours before it (the corners of its upper hull). The first is the frontier's first, the last its
// last. Without a limit on cash each step but the first puts one fix in, or replaces one by a better one;
// equal steps may come together.
std::vector<ChoiceSet> steps(const std::vector<ChoiceSet>& frontier);

// What one hour more earned from `before` to `after`.
double per_hour(const ChoiceSet& before, const ChoiceSet& after);

// The last set that at most so many hours allow, or nothing where even the first needs more.
const ChoiceSet* at_budget(const std::vector<ChoiceSet>& frontier, double hours);

}  // namespace nonrunner::appraisal

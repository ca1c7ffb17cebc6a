// All sets of choices, one from each class, that no other set beats: none has at most its hours, at most its
// cash and at least its gain. Class by class, keeping only what is not beaten so far (H. Kellerer, U.
// Pferschy and D. Pisinger, Knapsack Problems, 2004, dynamic programming with lists; from memory). Exact: a
// set beaten on the way stays beaten.
//
// The lists can grow with the number of classes; beyond `states_most` in all Refusal is thrown, nothing is
// cut short.
#pragma once
#include <functional>
#include <vector>

#include "appraisal/choice.h"

namespace nonrunner::appraisal {

constexpr std::size_t states_most = 4'000'000;

// Asked for the sets of the first k classes: false drops a set and all that would grow from it.
using Keep = std::function<bool(std::size_t classes, double hours, double cash, double gain)>;

// In order of hours, then cash; of equal sets the one with the earlier choices. Empty where `keep` dropped
// all.
std::vector<ChoiceSet> undominated(const std::vector<ChoiceClass>&, const Keep& keep);

}  // namespace nonrunner::appraisal

// The best set of fixes under limits: one choice from each class, the greatest gain with at most so many
// hours and at most so much cash: a multiple-choice knapsack with two limits, solved exactly.
//
// Method: undominated sets class by class (appraisal/undominated.h), dropping those that cannot reach the
// best set found by a quick guess: for any prices l >= 0 of an hour and of cash, no completion gains more
// than
//   gain so far + sum over the classes to come of max (gain - l hours - l cash) + l x what the limits leave.
//
// Known to be right by published optima (tests/outside/knapsack.cpp) and by small sets against all subsets.
#pragma once
#include <optional>
#include <vector>

#include "appraisal/choice.h"

namespace nonrunner::appraisal {

struct Limits {
  std::optional<double> hours;  // absent: none
  std::optional<double> cash;
};

struct Knapsack {
  // Absent where no set keeps the limits: what must be put right needs more. Of equal gains the set with
  // fewer hours, then with less cash.
  std::optional<ChoiceSet> best;
  double least_hours = 0;  // what the classes need at least, each looked at alone
  double least_cash = 0;
};

// A limit counts as kept within a billionth, since hours and cash are expectations. Throws Refusal where the
// sets are too many (appraisal/undominated.h).
Knapsack best_set(const std::vector<ChoiceClass>&, const Limits&);

}  // namespace nonrunner::appraisal

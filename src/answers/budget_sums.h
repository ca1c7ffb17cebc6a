// A budget summed up: by heading, and what was booked outside its estimate.
#pragma once
#include <string>
#include <vector>

#include "answers/budget.h"

namespace nonrunner::answers {

// Costs that stand under no line of the estimate, the largest first; they live as long as the budget.
std::vector<const PlacedMoney*> not_in_estimate(const Budget&);

// The same as things that were bought and kept: what went back of a line lowers it.
struct KeptOutside {
  std::string what;
  Money cost;
};
std::vector<KeptOutside> kept_outside(const Budget&);

// By heading: each correction, all fixes, fees, one's own headings.
struct HeadingSum {
  std::string heading;
  Money expected, booked, to_come;
  bool in_estimate = false;
};
std::vector<HeadingSum> by_heading(const Budget&);

struct BudgetSums {
  Money expected, booked;  // booked: all of it, also what stands under no heading
  Money under_no_heading;
  double expected_hours = 0;
  Hours all_hours, hours_under_no_heading;
};
BudgetSums sums_of(const Budget&);

// What of the fees is expected and not paid yet: it is to come until it is paid, or said to be done.
Money fees_to_come(const Budget&);

}  // namespace nonrunner::answers

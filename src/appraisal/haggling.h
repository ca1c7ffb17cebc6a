// What to name when haggling: everything that the car still costs a buyer before it is sold, in money and own
// hours, the largest first. Expected values; what depends on the cause stands with its chance.
#pragma once
#include <string>
#include <vector>

#include "appraisal/courses.h"
#include "appraisal/evidence.h"
#include "appraisal/outlook.h"

namespace nonrunner::appraisal {

struct CostToName {
  std::string what;
  double amount = 0;  // cash and own hours at the shop's hour, if it comes to it
  double chance = 1;
  bool counted = true;  // false: it is of putting right, which is the best course under no cause
};

// `put_right`: whether that is the best course under some cause.
std::vector<CostToName> costs_to_name(const Courses&, const Beliefs&, const Outlook&, bool put_right);

}  // namespace nonrunner::appraisal

// Hours at a car as one entry has them, own and paid.
#pragma once
#include <cstdint>
#include <string>

#include "exact/day.h"
#include "exact/thousandths.h"

namespace nonrunner::figures {

struct Work {
  Day day;
  std::string operation;
  Hours own, paid;
  bool after_sale = false;
  std::string estimate = {};  // the line of the estimate that they fall under; empty: none
  std::int64_t entry = 0;
};

}  // namespace nonrunner::figures

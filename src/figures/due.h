// Money that is to come back, or is owed: a core, a deposit on a borrowed tool, a shop's credit.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "exact/day.h"
#include "exact/money.h"

namespace nonrunner::figures {

struct Due {
  std::string what, from;  // from: whoever it is due from, or owed to
  std::optional<Day> by;   // the last day
  Money amount;
  std::vector<std::string> vehicles = {};
  std::string line = {};  // receipt line id, for a core
};

}  // namespace nonrunner::figures

// Money that is to come back, or is owed: a core, a deposit on a borrowed tool, a shop's credit.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "exact/day.h"
#include "exact/money.h"

namespace nonrunner::figures {

enum class DueKind {
  named,         // as `what` says
  core,          // of the part `what`
  tool_deposit,  // on the tool `what`
  credit         // in the purse `what`
};

struct Due {
  std::string what, from;  // from: whoever it is due from, or owed to
  std::optional<Day> by;   // the last day
  Money amount;
  std::vector<std::string> vehicles = {};
  std::string line = {};  // receipt line id, for a core
  DueKind kind = DueKind::named;
};

}  // namespace nonrunner::figures

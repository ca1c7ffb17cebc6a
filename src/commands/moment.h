// What the clock of the machine says, as the book wants it.
#pragma once
#include <ctime>
#include <string>

#include "exact/day.h"

namespace nonrunner::commands {

Day local_day(std::time_t);
std::string utc_moment(std::time_t);  // ISO 8601, to the second

}  // namespace nonrunner::commands

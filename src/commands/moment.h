// What the clock of the machine says, as the book wants it.
#pragma once
#include <ctime>
#include <string>

#include "exact/day.h"

namespace nonrunner::commands {

Day local_day(std::time_t);
std::string utc_moment(std::time_t);  // ISO 8601, to the second
// "Fri 2026-05-01 20:30", in the zone of this machine; what is no such moment comes back as it was.
std::string on_the_wall(const std::string& utc_moment);

}  // namespace nonrunner::commands

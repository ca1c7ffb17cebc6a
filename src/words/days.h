// Days as a person says them, alike on every surface.
#pragma once
#include <string>

#include "exact/day.h"

namespace nonrunner::words {

std::string shown_day(Day);  // "2025-07-04 Fri"
std::string shown_time(
    const std::string& stamp);  // "2025-07-04 Fri 14:05" in the zone of this machine; ISO 8601 in UTC
std::string days_left(Day by, Day today);  // "today", "in 3 days", "2 days late"

}  // namespace nonrunner::words

// The day of the week, by counting from one that is known.
#pragma once
#include <array>

#include "exact/day.h"

namespace nonrunner::words {

// 0 Sunday to 6 Saturday. 2 January 2000 was a Sunday.
inline unsigned weekday_number(Day day) {
  return static_cast<unsigned>(((days_between(Day(2000, 1, 2), day) % 7) + 7) % 7);
}

inline const char* weekday(Day day) {  // "Fri"
  constexpr std::array<const char*, 7> names = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  return names[weekday_number(day)];
}

}  // namespace nonrunner::words

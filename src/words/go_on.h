// Go on or stop (answers/go_on.h), said alike on every surface. Keys of the JSON text are the interface: they
// stay, others may come beside them; money is a decimal string.
#pragma once
#include <string>
#include <vector>

#include "answers/go_on.h"

namespace nonrunner::words {

// In one line, as a finding keeps it: "go on or stop: put it right (from here 1,234.00; as found 900.00)".
std::string in_words(const answers::GoOnAnswer&);
// How far the course to take is ahead, or that it is too close to call; empty where there is only one.
std::string how_sure(const answers::GoOnAnswer&);
struct CourseRow {
  std::string course, brings, spend, back, hours, days, from_here;
};
std::vector<CourseRow> courses(const answers::GoOnAnswer&);
inline constexpr const char* what_courses_say =
    "brings: less the costs of selling; from here: after own hours and the days' holding cost";
// Absent words: what is to be done now is what the price rested on.
std::string what_price_rests_on(const answers::GoOnAnswer&);
std::string spent_already(const answers::GoOnAnswer&);
std::string to_json(const answers::GoOnAnswer&);
// "rot (30 %), airbag lamp (5 %)"; empty where every trouble was looked for.
std::string troubles_by_chance(const answers::GoOnAnswer&);

}  // namespace nonrunner::words

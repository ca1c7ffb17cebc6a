#include "words/days.h"

#include <fmt/format.h>

#include "words/weekday.h"

namespace nonrunner::words {

std::string shown_day(Day day) { return day.iso() + " " + weekday(day); }

std::string shown_time(const std::string& stamp) {
  if (stamp.size() < 16) return stamp;
  return shown_day(Day::parse(stamp.substr(0, 10))) + " " + stamp.substr(11, 5) + " UTC";
}

std::string days_left(Day by, Day today) {
  const int days = days_between(today, by);
  if (days == 0) return "today";
  if (days > 0) return fmt::format("in {} day{}", days, days == 1 ? "" : "s");
  return fmt::format("{} day{} late", -days, days == -1 ? "" : "s");
}

}  // namespace nonrunner::words

#include "words/days.h"

#include <fmt/format.h>

#include <ctime>

#include "text/counted.h"
#include "words/weekday.h"

namespace nonrunner::words {

std::string shown_day(Day day) { return day.iso() + " " + weekday(day); }

std::string shown_time(const std::string& stamp) {
  std::tm utc{}, local{};
  const char* end = strptime(stamp.c_str(), "%Y-%m-%dT%H:%M:%SZ", &utc);
  if (end == nullptr || *end != '\0') return stamp;
  const std::time_t moment = timegm(&utc);
  localtime_r(&moment, &local);
  const Day day(local.tm_year + 1900, static_cast<unsigned>(local.tm_mon + 1),
                static_cast<unsigned>(local.tm_mday));
  return fmt::format("{} {:02}:{:02}", shown_day(day), local.tm_hour, local.tm_min);
}

std::string days_left(Day by, Day today) {
  const int days = days_between(today, by);
  if (days == 0) return "today";
  if (days > 0) return "in " + counted(days, "day");
  return counted(-days, "day") + " late";
}

}  // namespace nonrunner::words

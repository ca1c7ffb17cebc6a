#include "commands/moment.h"

#include <fmt/format.h>

#include "words/weekday.h"

namespace nonrunner::commands {

Day local_day(std::time_t moment) {
  std::tm local{};
  localtime_r(&moment, &local);
  return Day(local.tm_year + 1900, static_cast<unsigned>(local.tm_mon + 1),
             static_cast<unsigned>(local.tm_mday));
}

std::string utc_moment(std::time_t moment) {
  std::tm utc{};
  gmtime_r(&moment, &utc);
  char stamp[32];
  std::strftime(stamp, sizeof stamp, "%Y-%m-%dT%H:%M:%SZ", &utc);
  return stamp;
}

std::string on_the_wall(const std::string& utc_moment) {
  std::tm utc{}, local{};
  const char* end = strptime(utc_moment.c_str(), "%Y-%m-%dT%H:%M:%SZ", &utc);
  if (end == nullptr || *end != '\0') return utc_moment;
  const std::time_t moment = timegm(&utc);
  localtime_r(&moment, &local);
  return fmt::format("{} {} {:02}:{:02}", words::weekday(local_day(moment)), local_day(moment).iso(),
                     local.tm_hour, local.tm_min);
}

}  // namespace nonrunner::commands

#include "commands/moment.h"

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

}  // namespace nonrunner::commands

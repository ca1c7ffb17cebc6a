// --on DAY: as it stood at the end of that day.
#pragma once
#include "commands/options.h"

namespace nonrunner::commands {

inline Option on_option() { return {"on", "DAY", "as it stood at the end of that day (else now)"}; }

// Throws WrongUsage for a day that has not come yet.
inline std::optional<Day> day_on(const Given& given, Day today) {
  const auto on = given.day("on");
  if (on && *on > today)
    given.wrong("--on: found " + on->iso() + ", which has not come yet, expected " + today.iso() +
                " at the latest");
  return on;
}

}  // namespace nonrunner::commands

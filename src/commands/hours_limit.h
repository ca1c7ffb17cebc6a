// The option --hours of what is chosen within so many own hours.
#pragma once
#include <fmt/format.h>

#include <optional>

#include "commands/options.h"
#include "commands/typed_forms.h"
#include "exact/decimal.h"

namespace nonrunner::commands {

// Absent: no limit. `example` stands in the message where it is no such number.
inline std::optional<double> hours_limit(const Given& given, const char* example) {
  const auto text = given.text("hours");
  if (!text) return std::nullopt;
  const auto thousandths = scaled(plain_hours(*text), 3);
  if (!thousandths || *thousandths < 0)
    given.wrong(fmt::format("--hours: found \"{}\", expected a number of own hours, 0 or more, such as {}",
                            *text, example));
  return static_cast<double>(*thousandths) / 1000;
}

}  // namespace nonrunner::commands

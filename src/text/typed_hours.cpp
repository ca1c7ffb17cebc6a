#include "text/typed_hours.h"

#include "text/typed_numbers.h"

namespace nonrunner {

std::optional<Hours> hours_and_minutes(const std::string& typed) {
  const std::size_t colon = typed.find(':');
  if (colon == std::string::npos) return std::nullopt;
  const std::string hours = typed.substr(0, colon), minutes = typed.substr(colon + 1);
  if (!all_digits(hours) || hours.size() > 5 || !all_digits(minutes) || minutes.size() != 2 ||
      minutes >= "60")
    return std::nullopt;
  return Hours::of(scaled(std::stoll(hours) * 60 + std::stoll(minutes), 1000, 60, Rounding::half_even));
}

Hours typed_hours(std::string typed) {
  if (const auto hours = hours_and_minutes(typed)) return *hours;
  // Three digits behind a comma may be thousands: left as they are, and refused.
  const std::size_t comma = typed.find(',');
  const std::size_t behind = comma == std::string::npos ? 0 : typed.size() - comma - 1;
  if (behind == 1 || behind == 2) typed[comma] = '.';
  return Hours::parse(typed);
}

}  // namespace nonrunner

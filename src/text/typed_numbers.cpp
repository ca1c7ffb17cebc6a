#include "text/typed_numbers.h"

namespace nonrunner {

namespace {

std::optional<std::int64_t> whole(std::string_view typed, std::size_t digits_most) {
  if (typed.empty() || typed.size() > digits_most) return std::nullopt;
  std::int64_t number = 0;
  for (const char c : typed) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + (c - '0');
  }
  return number;
}

}  // namespace

std::optional<std::int64_t> typed_entry(std::string_view typed) {
  const auto number = whole(typed, 9);
  return number && *number > 0 ? number : std::nullopt;
}

std::optional<int> typed_year(std::string_view typed) {
  const auto year = whole(typed, 4);
  return year && *year >= 1900 && *year <= 9998 ? std::optional(static_cast<int>(*year)) : std::nullopt;
}

}  // namespace nonrunner

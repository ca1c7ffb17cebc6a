// Whole numbers as a person types them, wherever they are typed: nothing where it is none.
#pragma once
#include <cstdint>
#include <optional>
#include <string_view>

namespace nonrunner {

// The number of an entry or of a line: 1 to 999,999,999, in digits alone.
std::optional<std::int64_t> typed_entry(std::string_view);
// The year of a report: 1900 to 9998.
std::optional<int> typed_year(std::string_view);

// What a hexadecimal digit stands for; -1 where it is none.
constexpr int hexadecimal(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

}  // namespace nonrunner

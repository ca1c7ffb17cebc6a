// Numbers as a person types them, wherever they are typed: nothing where it is none.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace nonrunner {

// The number of an entry or of a line: 1 to 999,999,999, in digits alone.
std::optional<std::int64_t> typed_entry(std::string_view);
// The year of a report: 1900 to 9998.
std::optional<int> typed_year(std::string_view);

bool all_digits(std::string_view);  // one at least
std::vector<std::string> parted(std::string_view text, char by);
// "1.234,50", "12,5" and ",75", without a sign, with a point in place of the comma: points part groups of three
// before it.
std::optional<std::string> decimal_comma(std::string_view);
// "1,450.00" as "1450.00": commas part groups of three before a point; nothing without a point behind them.
std::optional<std::string> thousands_with_point(std::string_view);
// A number as a file has it, where it has one reading: what the two above read, and ".75" as "0.75"; a minus may stand
// before it. Anything else comes back as it was typed, for its reader to refuse.
std::string number_as_in_file(const std::string& typed);
// One to three digits, not 0, the mark, three digits: thousands to some, thousandths to others.
bool may_be_thousands(std::string_view, char mark);
// Refuses "1.250" and "1,250" as an amount in a currency of fewer than three decimals: nobody writes an amount so, but a
// thousand. `digits` is what was `typed` without its signs.
void expect_one_reading(std::string_view digits, std::string_view typed, int decimals);

// What a hexadecimal digit stands for; -1 where it is none.
constexpr int hexadecimal(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

}  // namespace nonrunner

#include "exact/decimal.h"

#include <algorithm>
#include <boost/multiprecision/cpp_int.hpp>
#include <limits>

#include "exact/ends.h"

namespace nonrunner {

namespace {
// Wide enough for the product of any two 64-bit numbers. Kept out of the header: it is slow to compile.
using Wide = boost::multiprecision::int128_t;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
}  // namespace

std::optional<std::int64_t> scaled(std::string_view text, int places) {
  const bool negative = !text.empty() && text.front() == '-';
  if (negative) text.remove_prefix(1);
  const auto point = text.find('.');
  const std::string_view whole = text.substr(0, point);
  std::string_view part = point == std::string_view::npos ? std::string_view{} : text.substr(point + 1);
  if (whole.empty() || (point != std::string_view::npos && part.empty())) return std::nullopt;
  if (!std::all_of(whole.begin(), whole.end(), is_digit) || !std::all_of(part.begin(), part.end(), is_digit))
    return std::nullopt;
  while (part.size() > static_cast<std::size_t>(places)) {
    if (part.back() != '0') return std::nullopt;
    part.remove_suffix(1);
  }
  Wide value = 0;
  const Wide limit = std::numeric_limits<std::int64_t>::max();
  const auto take = [&](char c) {
    value = value * 10 + (c - '0');
    return value <= limit;
  };
  for (char c : whole)
    if (!take(c)) return std::nullopt;
  for (char c : part)
    if (!take(c)) return std::nullopt;
  for (std::size_t i = part.size(); i < static_cast<std::size_t>(places); ++i)
    if (!take('0')) return std::nullopt;
  const auto units = static_cast<std::int64_t>(value);
  return negative ? -units : units;
}

std::string unscaled(std::int64_t units, int places) {
  // Through the unsigned type, where the least 64-bit number has a magnitude too.
  const bool negative = units < 0;
  const std::uint64_t magnitude =
      negative ? 0 - static_cast<std::uint64_t>(units) : static_cast<std::uint64_t>(units);
  std::string digits = std::to_string(magnitude);
  if (digits.size() <= static_cast<std::size_t>(places))
    digits.insert(0, static_cast<std::size_t>(places) + 1 - digits.size(), '0');
  if (places > 0) digits.insert(digits.size() - static_cast<std::size_t>(places), ".");
  return negative ? "-" + digits : digits;
}

std::string unscaled_trimmed(std::int64_t units, int places) {
  std::string text = unscaled(units, places);
  if (places > 0) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text;
}

std::int64_t scaled(std::int64_t amount, std::int64_t times, std::int64_t over, Rounding rounding) {
  const Wide numerator = Wide(amount) * times, denominator = over;
  const bool negative = (numerator < 0) != (denominator < 0);
  const Wide top = numerator < 0 ? Wide(-numerator) : numerator;
  const Wide bottom = denominator < 0 ? Wide(-denominator) : denominator;
  Wide quotient = top / bottom;
  const Wide rest = top % bottom;
  const int half = Wide(rest * 2).compare(bottom);  // below, at or above one half
  bool up = false;
  switch (rounding) {
    case Rounding::half_even:
      up = half > 0 || (half == 0 && quotient % 2 != 0);
      break;
    case Rounding::half_away:
      up = half >= 0;
      break;
    case Rounding::half_towards_zero:
      up = half > 0;
      break;
    case Rounding::away:
      up = rest != 0;
      break;
    case Rounding::towards_zero:
      up = false;
      break;
    case Rounding::ceiling:
      up = rest != 0 && !negative;
      break;
    case Rounding::floor:
      up = rest != 0 && negative;
      break;
  }
  if (up) ++quotient;
  if (quotient > std::numeric_limits<std::int64_t>::max())
    throw Refusal("a number is too large for the book: expected less than 9,223,372,036,854,775,807 units");
  const auto units = static_cast<std::int64_t>(quotient);
  return negative ? -units : units;
}

}  // namespace nonrunner

// Decimal text to whole units and back, and division of whole numbers with its rounding named at the call.
//
// Exact: no binary floating point anywhere. Range: what does not fit into 64 bits is refused, nothing wraps.
// Known to be right by the table of rounding modes in tests/outside/rounding.cpp.
#pragma once
#include <boost/multiprecision/cpp_int.hpp>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace nonrunner {

using Wide = boost::multiprecision::int128_t;  // wide enough for the product of any two 64-bit numbers

enum class Rounding { half_even, half_away, half_towards_zero, away, towards_zero, ceiling, floor };

// The number that `text` writes, in units of 10^-places: scaled("12.5", 2) is 1250. Digits with an optional
// leading minus and an optional point with digits on both sides; no exponent, blank, plus sign or thousands
// mark. Absent when the text is not such a number, has more than `places` decimals that are not zero, or does
// not fit.
std::optional<std::int64_t> scaled(std::string_view text, int places);

std::string unscaled(std::int64_t units, int places);          // 1250, 2 -> "12.50"
std::string unscaled_trimmed(std::int64_t units, int places);  // 1250, 2 -> "12.5"; 1200, 2 -> "12"

// numerator / denominator rounded to a whole number. The denominator is not zero; throws Refusal where the
// quotient does not fit into 64 bits.
std::int64_t divided(const Wide& numerator, const Wide& denominator, Rounding);

}  // namespace nonrunner

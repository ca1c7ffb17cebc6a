// Decimal text to whole units and back, and products and ratios of whole numbers with their rounding named
// at the call.
//
// Exact: no binary floating point anywhere. Range: what does not fit into 64 bits is refused, nothing wraps.
// Known to be right by the table of rounding modes in tests/outside/rounding.cpp.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace nonrunner {

enum class Rounding { half_even, half_away, half_towards_zero, away, towards_zero, ceiling, floor };

// The number that `text` writes, in units of 10^-places: scaled("12.5", 2) is 1250. Digits with an optional
// leading minus and an optional point with digits on both sides; no exponent, blank, plus sign or thousands
// mark. Absent when the text is not such a number, has more than `places` decimals that are not zero, or does
// not fit.
std::optional<std::int64_t> scaled(std::string_view text, int places);

std::string unscaled(std::int64_t units, int places);          // 1250, 2 -> "12.50"
std::string unscaled_trimmed(std::int64_t units, int places);  // 1250, 2 -> "12.5"; 1200, 2 -> "12"

// amount * times / over, rounded once to a whole number: the product is exact, whatever its size. `over` is
// not zero; throws Refusal where the result does not fit into 64 bits.
std::int64_t scaled(std::int64_t amount, std::int64_t times, std::int64_t over, Rounding);

}  // namespace nonrunner

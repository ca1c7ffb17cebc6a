// The highest price in whole coins at which something still holds that fails at every higher one.
#pragma once
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>

#include "appraisal/job.h"

namespace nonrunner::appraisal {

// A price of so many of the smallest coins, as near as a double comes to the decimal.
inline double price_of_coins(const Job& job, std::int64_t coins) {
  return static_cast<double>(coins) / std::round(1 / smallest_coin(job.currency));
}

inline std::int64_t coins_below(const Job& job, double price) {
  constexpr double most = 1e14;
  return static_cast<std::int64_t>(
      std::floor(std::clamp(price / smallest_coin(job.currency) * (1 + 1e-15) + 1e-6, -most, most)));
}

// Absent where it holds at any price. `guess` saves steps: from there in steps that double, then halving; `far`
// where it is only near.
template <class Holds>
std::optional<double> highest_price(const Job& job, double guess, Holds holds, bool far = false) {
  constexpr std::int64_t most = 100'000'000'000'000;
  const auto holds_at = [&](std::int64_t coins) { return holds(price_of_coins(job, coins)); };
  std::int64_t low = coins_below(job, guess), high = low;
  std::int64_t step = far ? std::max<std::int64_t>(std::abs(low) / 64, 1) : 1;
  if (holds_at(low)) {
    do {
      low = high;
      high += step;
      step *= 2;
      if (high > most) return std::nullopt;
    } while (holds_at(high));
  } else {
    do {
      high = low;
      low -= step;
      step *= 2;
      if (low < -most) return price_of_coins(job, -most);
    } while (!holds_at(low));
  }
  while (high - low > 1) {
    const std::int64_t middle = low + (high - low) / 2;
    (holds_at(middle) ? low : high) = middle;
  }
  return price_of_coins(job, low);
}

}  // namespace nonrunner::appraisal

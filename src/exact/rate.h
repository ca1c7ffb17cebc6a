// A share of an amount: a commission, a tax. A fraction from 0 up to, not including, 1, exact to 9 decimals.
#pragma once
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "exact/decimal.h"
#include "exact/money.h"

namespace nonrunner {

class Rate {
 public:
  constexpr Rate() = default;
  static Rate parse(std::string_view text);  // "0.065" or "6.5%"; throws Refusal
  std::int64_t billionths() const noexcept { return billionths_; }
  std::string plain() const { return unscaled_trimmed(billionths_, 9); }

  Money of(Money, Rounding) const;
  // The price whose remainder after this rate is at least `rest`: rest / (1 - rate), rounded up to a minor
  // unit.
  Money grossed_up(Money rest) const;
  friend constexpr auto operator<=>(Rate, Rate) = default;

 private:
  std::int64_t billionths_ = 0;
};

}  // namespace nonrunner

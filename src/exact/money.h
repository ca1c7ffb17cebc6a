// An amount of money, in whole minor units (ISO 4217) of the book's one currency.
//
// Range:  up to 10^15 minor units either way; what would leave it throws Refusal, nothing wraps.
// Exact:  sums, differences, whole multiples. It never meets a double: a tax or a commission is a Rate
//         (exact/rate.h) and a unit price a Price (exact/price.h), which say how they round; a total is
//         shared out by spread() (exact/spread.h), which loses no unit. What is an opinion becomes money in
//         figures/opinion.h alone.
#pragma once
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "exact/currency.h"

namespace nonrunner {

class Money {
 public:
  static constexpr std::int64_t limit = 1'000'000'000'000'000;

  constexpr Money() = default;
  static Money of_minor(std::int64_t minor);  // throws Refusal beyond the range
  // "1250.50", "-18", "1250.500" (zeros may follow); throws Refusal saying what was found and expected.
  static Money parse(std::string_view text, const Currency&);

  constexpr std::int64_t minor() const noexcept { return minor_; }
  std::string plain(const Currency&) const;  // "1250.50": files, JSON
  std::string shown(const Currency&) const;  // "1,250.50": people

  friend Money operator+(Money a, Money b) { return of_minor(a.minor_ + b.minor_); }
  friend Money operator-(Money a, Money b) { return of_minor(a.minor_ - b.minor_); }
  Money operator-() const { return of_minor(-minor_); }
  Money& operator+=(Money b) { return *this = *this + b; }
  Money& operator-=(Money b) { return *this = *this - b; }
  friend constexpr auto operator<=>(Money, Money) = default;

 private:
  std::int64_t minor_ = 0;
};

inline bool is_zero(Money m) { return m.minor() == 0; }
inline bool is_negative(Money m) { return m.minor() < 0; }

}  // namespace nonrunner

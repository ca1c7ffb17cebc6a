// Decimals with up to three places that count something other than money: pieces, hours, distance. Each is a
// type of its own, so that hours never stand where pieces are meant.
//
// Range: 10^15 thousandths either way; what would leave it throws Refusal. Exact: sums and differences.
#pragma once
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "exact/decimal.h"
#include "exact/ends.h"

namespace nonrunner {

template <class What>
class Thousandths {
 public:
  static constexpr std::int64_t limit = 1'000'000'000'000'000;

  constexpr Thousandths() = default;
  static Thousandths of(std::int64_t thousandths) {
    if (thousandths > limit || thousandths < -limit)
      throw Refusal(std::string("a number of ") + What::name +
                    " is beyond what a book holds: " + std::to_string(thousandths) + " thousandths");
    Thousandths result;
    result.units_ = thousandths;
    return result;
  }
  // "4", "2.25"; throws Refusal saying what was found and expected.
  static Thousandths parse(std::string_view text) {
    const auto units = scaled(text, 3);
    if (!units)
      throw Refusal("found \"" + std::string(text) + "\", expected a number of " + What::name +
                    " with at most 3 decimals, such as 2.25");
    return of(*units);
  }

  constexpr std::int64_t thousandths() const noexcept { return units_; }
  std::string shown() const { return unscaled_trimmed(units_, 3); }
  double approximately() const { return static_cast<double>(units_) / 1000.0; }  // for charts and ratios

  friend Thousandths operator+(Thousandths a, Thousandths b) { return of(a.units_ + b.units_); }
  friend Thousandths operator-(Thousandths a, Thousandths b) { return of(a.units_ - b.units_); }
  Thousandths& operator+=(Thousandths b) { return *this = *this + b; }
  friend constexpr auto operator<=>(Thousandths, Thousandths) = default;

 private:
  std::int64_t units_ = 0;
};

struct Pieces {
  static constexpr const char* name = "pieces";
};
struct WorkedTime {
  static constexpr const char* name = "hours";
};
struct Way {
  static constexpr const char* name = "miles or kilometres";
};
using Quantity = Thousandths<Pieces>;
using Hours = Thousandths<WorkedTime>;
using Distance = Thousandths<Way>;

}  // namespace nonrunner

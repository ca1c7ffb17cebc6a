// Money for one piece or one hour: up to three decimals more than the currency has, since counters print such
// prices. An amount comes from it with its rounding named: half away from zero to a whole minor unit, as
// tills do.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>

#include "exact/money.h"
#include "exact/thousandths.h"

namespace nonrunner {

class Price {
 public:
  constexpr Price() = default;
  static Price parse(std::string_view text, const Currency&);  // throws Refusal
  static Price of_fine(std::int64_t fine) {
    Price price;
    price.fine_ = fine;
    return price;
  }
  static Price of(Money m) { return of_fine(m.minor() * 1000); }

  std::int64_t fine() const noexcept { return fine_; }  // thousandths of a minor unit
  std::string plain(const Currency&) const;             // at least the currency's decimals

  Money times(Quantity) const;  // rounded half away from zero
  Money times(Hours) const;     // rounded half away from zero

 private:
  std::int64_t fine_ = 0;
};

}  // namespace nonrunner

// Variances of standard costing, positive where more was spent than expected:
//   price    = (actual price - expected price) x actual quantity         of hours: rate variance
//   quantity = (actual quantity - expected quantity) x expected price    of hours: efficiency variance
// Exact: in minor units; what one piece came to is never rounded, and the two always add up to the total.
// Where nothing was bought or worked, nothing was paid at another price: all of it is quantity.
// Known to be right by the published cases in tests/outside/variances.cpp.
#pragma once
#include "exact/money.h"
#include "exact/price.h"
#include "exact/thousandths.h"

namespace nonrunner::reports {

struct Variance {
  Money expected, price, quantity, total;
};

// `actual`: what the actual quantity cost in all. What is `Count`: Quantity or Hours.
template <class Count>
Variance variance(Count expected_quantity, Price expected_price, Count actual_quantity, Money actual) {
  Variance v;
  v.expected = expected_price.times(expected_quantity);
  v.price = actual - expected_price.times(actual_quantity);
  v.total = actual - v.expected;
  v.quantity = v.total - v.price;
  return v;
}

// The order of a list of variances: first what nothing was expected for, the most before the rest; then the
// others, the largest before the rest, whichever way they went.
struct VariancePlace {
  bool unexpected = false;
  Money variance;
};
inline bool stands_before(const VariancePlace& one, const VariancePlace& other) {
  if (one.unexpected != other.unexpected) return one.unexpected;
  if (one.unexpected) return one.variance > other.variance;
  const auto size = [](Money variance) { return is_negative(variance) ? -variance : variance; };
  return size(one.variance) > size(other.variance);
}

// How much was had of what is compared by its amount alone, such as work sent out: nothing where nothing was
// paid, else what was expected, and one where none was.
inline Quantity quantity_of_a_sum(Quantity expected_quantity, Money actual) {
  if (is_zero(actual)) return Quantity();
  return expected_quantity == Quantity() ? Quantity::of(1000) : expected_quantity;
}

}  // namespace nonrunner::reports

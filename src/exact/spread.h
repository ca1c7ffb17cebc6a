// Sharing out a total in proportion to weights, without losing a unit: largest remainders, equal remainders to the
// earlier line. Known to be right by published apportionments (tests/outside/apportioning.cpp) and by every total to 200
// against a slow obvious way (tests/exact/spread.cpp).
#pragma once
#include <cstdint>
#include <vector>

#include "exact/money.h"

namespace nonrunner {

// Shares that add up to `total` exactly; a weight of zero gets zero. Weights may be negative (a coupon among taxed
// lines) as long as their sum has the sign of none: it must not be zero, unless the total is. Throws Refusal otherwise.
std::vector<Money> spread(Money total, const std::vector<std::int64_t>& weights);

// Part k of n of an amount that is given back in steps: the share of `now` pieces when `before` of `all` went already.
// The last piece takes the rest, so that the steps always add up to the amount.
Money step_share(Money amount, std::int64_t all, std::int64_t before, std::int64_t now);

}  // namespace nonrunner

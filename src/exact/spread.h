// Sharing out a total in proportion to weights, without losing a unit: largest remainders, equal remainders
// to the earlier line. Known to be right by published apportionments (tests/outside/rounding.cpp) and by
// every total to 200 against a slow obvious way (tests/exact/spread.cpp).
#pragma once
#include <cstdint>
#include <vector>

#include "exact/money.h"

namespace nonrunner {

// Shares that add up to `total` exactly; a weight of zero gets zero, and each share is less than one unit
// away from its exact part. A negative total is shared out as the mirror image of the positive one. Weights
// may be negative (a coupon among taxed lines); throws Refusal where they add up to zero, unless the total is
// zero.
std::vector<Money> spread(Money total, const std::vector<std::int64_t>& weights);

// Part k of n of an amount that is given back in steps: the share of `now` pieces when `before` of `all` went
// already. The last piece takes the rest, so that the steps always add up to the amount.
Money step_share(Money amount, std::int64_t all, std::int64_t before, std::int64_t now);

}  // namespace nonrunner

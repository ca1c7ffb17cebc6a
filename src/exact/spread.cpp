#include "exact/spread.h"

#include <algorithm>
#include <boost/multiprecision/cpp_int.hpp>
#include <numeric>

#include "exact/decimal.h"
#include "exact/ends.h"

namespace nonrunner {

namespace {
using Wide = boost::multiprecision::int128_t;  // sums and products of 64-bit numbers

Wide floor_of(const Wide& top, const Wide& bottom) {
  const Wide quotient = top / bottom;
  return quotient * bottom != top && (top < 0) != (bottom < 0) ? Wide(quotient - 1) : quotient;
}
}  // namespace

std::vector<Money> spread(Money total, const std::vector<std::int64_t>& weights) {
  Wide sum = 0;
  for (std::int64_t weight : weights) sum += weight;
  std::vector<Money> shares(weights.size());
  if (is_zero(total)) return shares;
  if (sum == 0)
    throw Refusal("nothing to share " + std::to_string(total.minor()) +
                  " minor units over: the weights add up to 0");
  // A negative total is the mirror image of its positive one, so that giving back undoes giving.
  const bool mirrored = is_negative(total);
  const Wide whole = mirrored ? -total.minor() : total.minor();
  std::vector<std::int64_t> units(weights.size());
  std::vector<Wide> remainder(weights.size());
  Wide given = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const Wide product = whole * weights[i];
    const Wide share = floor_of(product, sum);
    if (abs(share) > Money::limit)  // only weights of both signs bring one about
      throw Refusal("a share is too large for the book: expected at most " + std::to_string(Money::limit) +
                    " minor units");
    units[i] = static_cast<std::int64_t>(share);
    remainder[i] = (product - Wide(units[i]) * sum) * (sum < 0 ? -1 : 1);
    given += units[i];
  }
  std::vector<std::size_t> order(weights.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return remainder[a] > remainder[b]; });
  const auto left = static_cast<std::size_t>(Wide(whole - given));
  for (std::size_t i = 0; i < left; ++i) ++units[order[i]];
  for (std::size_t i = 0; i < weights.size(); ++i)
    shares[i] = Money::of_minor(mirrored ? -units[i] : units[i]);
  return shares;
}

Money step_share(Money amount, std::int64_t all, std::int64_t before, std::int64_t now) {
  const auto up_to = [&](std::int64_t pieces) {
    return pieces == all ? amount.minor() : scaled(amount.minor(), pieces, all, Rounding::half_away);
  };
  return Money::of_minor(up_to(before + now) - up_to(before));
}

}  // namespace nonrunner

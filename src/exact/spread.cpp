#include "exact/spread.h"

#include <algorithm>
#include <numeric>

#include "exact/decimal.h"
#include "exact/ends.h"

namespace nonrunner {

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
    units[i] = divided(product, sum, Rounding::floor);
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
    return pieces == all ? amount.minor() : divided(Wide(amount.minor()) * pieces, all, Rounding::half_away);
  };
  return Money::of_minor(up_to(before + now) - up_to(before));
}

}  // namespace nonrunner

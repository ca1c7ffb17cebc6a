#include "appraisal/with_tests.h"

#include <algorithm>
#include <cmath>

#include "appraisal/highest_price.h"

namespace nonrunner::appraisal {

namespace {

// The highest whole number of coins in [low, high] at which `over` is not below 0; it falls with the price,
// is not below 0 at `low` and is below 0 at `high`. Straight lines are tried before halves.
template <class Over>
std::int64_t last_not_below(std::int64_t low, std::int64_t high, double at_low, double at_high, Over over) {
  bool halve = false;
  while (high - low > 1) {
    const double share = at_low - at_high > 0 ? at_low / (at_low - at_high) : 0.5;
    const auto width = static_cast<double>(high - low);
    std::int64_t middle = low + (high - low) / 2;
    if (!halve) middle = low + static_cast<std::int64_t>(std::floor(share * width));
    middle = std::clamp(middle, low + 1, high - 1);
    const std::int64_t before = high - low;
    const double value = over(middle);
    if (value >= 0) {
      low = middle;
      at_low = value;
      // The last coin of a straight line is often the one after.
      if (high - low > 1) {
        const double next = over(low + 1);
        if (next < 0) return low;
        low += 1;
        at_low = next;
      }
    } else {
      high = middle;
      at_high = value;
    }
    halve = high - low > before / 2 && !halve;
  }
  return low;
}

}  // namespace

double with_tests_price(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs,
                        double walk_away) {
  if (std::none_of(job.tests.begin(), job.tests.end(), still_to_make)) return walk_away;
  const double without = plan_values(job, offers, beliefs, std::nullopt).best;
  const double least = least_gain_of_a_test(job);
  const auto over = [&](std::int64_t coins) {
    return plan_values(job, offers, beliefs, price_of_coins(job, coins)).best - without - least;
  };
  const auto over_with_one = [&](std::int64_t coins) {
    return worth_with_one_test(job, offers, beliefs, price_of_coins(job, coins)) - without - least;
  };
  // Neither ever rises with the price, so one stretch of prices is searched, first by the plans of one test, which
  // are quickly known and often the best.
  std::int64_t low = coins_below(job, walk_away);
  const std::int64_t high = std::max(low, coins_below(job, offers.front().buying->hopeless_above())) + 1;
  const double at_high = over(high);
  if (at_high >= 0) return price_of_coins(job, high);
  const double one_at_low = over_with_one(low);
  if (one_at_low >= 0) low = last_not_below(low, high, one_at_low, at_high, over_with_one);
  const double at_low = over(low);
  if (at_low < 0) return walk_away;
  if (low + 1 == high || over(low + 1) < 0) return std::max(walk_away, price_of_coins(job, low));
  return std::max(walk_away, price_of_coins(job, last_not_below(low, high, at_low, at_high, over)));
}

std::optional<double> test_from_price(const Job& job, const std::vector<OfferAt>& offers,
                                      const Beliefs& beliefs, double walk_away, double with_tests) {
  const std::int64_t last = coins_below(job, with_tests);
  if (last < 0) return std::nullopt;
  const auto pays = [&](std::int64_t coins) {
    return gains_enough(job, offers, beliefs, price_of_coins(job, coins));
  };
  if (!pays(last)) return std::nullopt;
  std::int64_t yes = last, no = -1;
  if (!pays(0)) {
    no = 0;
  } else {
    yes = 0;
  }
  const bool by_profit_alone = job.aims.is_profit_alone() && offers.size() == 1;
  if (!by_profit_alone) {
    constexpr int tried = 16;
    for (int i = 1; i < tried; ++i) {
      const std::int64_t coins = last / tried * i;
      const bool tests = pays(coins);
      if (tests && (yes == last || yes > coins)) yes = coins;
      if (!tests && yes < coins) return std::nullopt;  // a test, then none, then a test again
      if (!tests) no = std::max(no, coins);
    }
  } else if (yes == last && coins_below(job, walk_away) < last) {
    const std::int64_t at = std::max<std::int64_t>(coins_below(job, walk_away), 0);
    if (pays(at)) yes = at;
  }
  if (yes == 0) return 0;
  while (yes - no > 1) {
    const std::int64_t middle = no + (yes - no) / 2;
    (pays(middle) ? yes : no) = middle;
  }
  return price_of_coins(job, yes);
}

}  // namespace nonrunner::appraisal

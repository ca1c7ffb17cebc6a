#include "appraisal/with_tests.h"

#include <algorithm>
#include <cmath>

#include "appraisal/highest_price.h"
#include "appraisal/roll_back.h"

namespace nonrunner::appraisal {

namespace {

// What a price leaves over, and by how much less that is for a coin more: where it is below 0 only the sign counts.
struct Over {
  double value = 0, falls = 0;
};

// How many coins to go until it is used up, if it goes on falling as it does; at least one.
std::int64_t coins_until_used_up(const Over& over, std::int64_t most) {
  if (!(over.falls > 0)) return most;
  const double coins = std::floor(over.value / over.falls);
  return coins >= static_cast<double>(most) ? most
                                            : std::max<std::int64_t>(static_cast<std::int64_t>(coins), 1);
}

// The last whole number of coins from `low` towards `end`, where it is not below 0 any more, at which `over_at` is not
// below 0. It falls on the way. A plan's worth falls in straight lines, so that is followed first; where it falls
// faster the stretch is halved.
template <class OverAt>
std::int64_t last_not_below(std::int64_t low, std::int64_t end, Over at_low, OverAt over_at) {
  const std::int64_t way = end > low ? 1 : -1;
  bool halve = false;
  while (std::abs(end - low) > 1) {
    const std::int64_t far = std::abs(end - low);
    const std::int64_t step = halve ? far / 2 : std::min(coins_until_used_up(at_low, far), far - 1);
    const std::int64_t middle = low + way * std::max<std::int64_t>(step, 1);
    const Over over = over_at(middle);
    halve = over.value < 0;
    if (over.value < 0) {
      end = middle;
    } else {
      low = middle;
      at_low = over;
    }
  }
  return low;
}

}  // namespace

double with_tests_price(Planning& planning, double walk_away) {
  const Job& job = planning.job();
  if (std::none_of(job.tests.begin(), job.tests.end(), still_to_make)) return walk_away;
  const double enough = planning.values_without_plain().best + least_gain_of_a_test(job);
  const double coin = smallest_coin(job.currency);
  const auto over_at = [&](std::int64_t coins) {
    RollBack& roll_back = planning.at(price_of_coins(job, coins));
    const double best = roll_back.best_from(enough);
    return Over{best - enough, coin * roll_back.falls()};
  };
  // It never rises with the price, and above what the best case still brings nothing is bought.
  const std::int64_t low = coins_below(job, walk_away);
  const std::int64_t hopeless =
      std::max(low, coins_below(job, planning.offers().front().buying->hopeless_above())) + 1;
  const Over at_low = over_at(low);
  if (at_low.value < 0) return walk_away;
  return std::max(walk_away, price_of_coins(job, last_not_below(low, hopeless, at_low, over_at)));
}

namespace {

// Whether a test pays at prices of the plain offer, from high to low ones.
class Paying {
 public:
  explicit Paying(Planning& planning) : planning_(planning), job_(planning.job()) {}

  bool pays(std::int64_t coins) { return gain(coins).value >= 0; }

  // What the plan gains over deciding there, more than a test must gain; and by how much less that is for a coin less.
  Over gain(std::int64_t coins) {
    const double price = price_of_coins(job_, coins), least = least_gain_of_a_test(job_);
    if (below_.is_known && price < known_at_) {
      const double less = paid_at(job_.deal, known_at_) - paid_at(job_.deal, price);
      const double at_most = below_.at_most(less);
      if (at_most < least) return {at_most - least, 0};
    }
    RollBack& roll_back = planning_.at(price);
    const double decided = roll_back.decide();
    const Over over{roll_back.best_from(decided + least) - decided - least, 0};
    // With interest less is paid back than the price is lower by.
    if (!below_.is_known && job_.shop.money_rate == 0) {
      below_ = roll_back.gain_below();
      known_at_ = price;
    }
    if (over.value < 0 || !(decided > 0)) return over;
    return {over.value, smallest_coin(job_.currency) * (1 + job_.deal.rate - roll_back.falls())};
  }

 private:
  Planning& planning_;
  const Job& job_;
  GainBelow below_;
  double known_at_ = 0;
};

}  // namespace

std::optional<double> test_from_price(Planning& planning, double walk_away, double with_tests) {
  const Job& job = planning.job();
  const std::int64_t last = coins_below(job, with_tests);
  if (last < 0) return std::nullopt;
  Paying paying(planning);
  if (!paying.pays(last)) return std::nullopt;
  std::int64_t yes = last, no = -1;
  const auto look = [&](std::int64_t coins) {
    const bool pays = paying.pays(coins);
    if (pays) yes = std::min(yes, coins);
    if (!pays) no = std::max(no, coins);
    return pays;
  };
  const std::int64_t limit = std::clamp<std::int64_t>(coins_below(job, walk_away), 0, last);
  if (limit < last) look(limit);
  if (!job.aims.is_profit_alone() || planning.offers().size() > 1) {
    constexpr int tried = 16;
    for (int i = tried - 1; i > 0; --i) look(last / tried * i);
  }
  look(0);
  if (no > yes) return std::nullopt;  // a test, then none, then a test again
  if (yes == 0) return 0;
  const Over at_yes = paying.gain(yes);
  return price_of_coins(
      job, last_not_below(yes, no, at_yes, [&](std::int64_t coins) { return paying.gain(coins); }));
}

}  // namespace nonrunner::appraisal

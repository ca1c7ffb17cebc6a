#include "appraisal/knapsack.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "appraisal/undominated.h"

namespace nonrunner::appraisal {

namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();

double with_slack(const std::optional<double>& limit) {
  return limit ? *limit + 1e-9 * (1 + std::abs(*limit)) : no_limit;
}

// Shadow prices: of an hour and of a unit of cash; an amount without a limit has no price.
struct ShadowPrices {
  double hour = 0, cash = 0;
};

class Problem {
 public:
  Problem(const std::vector<ChoiceClass>& classes, const Limits& limits)
      : classes_(classes), hours_(with_slack(limits.hours)), cash_(with_slack(limits.cash)) {}

  double hours() const { return hours_; }
  double cash() const { return cash_; }

  static double priced(const Choice& choice, ShadowPrices at) {
    return choice.gain - at.hour * choice.hours - at.cash * choice.cash;
  }
  const Choice& best_priced(const ChoiceClass& one, ShadowPrices at) const {
    return *std::max_element(one.choices.begin(), one.choices.end(),
                             [&](const Choice& a, const Choice& b) { return priced(a, at) < priced(b, at); });
  }
  double limits_priced(ShadowPrices at) const {
    return (at.hour > 0 ? at.hour * hours_ : 0) + (at.cash > 0 ? at.cash * cash_ : 0);
  }
  // No set gains more.
  double bound(ShadowPrices at) const {
    double sum = limits_priced(at);
    for (const ChoiceClass& one : classes_) sum += priced(best_priced(one, at), at);
    return sum;
  }

  // The prices with the least bound, which is convex in them.
  ShadowPrices best_prices() const {
    const double hour = least([&](double each) { return bound({each, cash_given(each)}); }, hours_);
    return {hour, cash_given(hour)};
  }
  ShadowPrices hour_only() const {
    return {least([&](double hour) { return bound({hour, 0}); }, hours_), 0};
  }
  ShadowPrices cash_only() const { return {0, cash_given(0)}; }

  // A set found quickly, to drop the hopeless early; its gain, or minus infinity where the guesses keep no
  // limit.
  double guess(ShadowPrices at) const {
    double best = -no_limit;
    for (const double dearer : {1.0, 1.05, 1.25, 1.6, 2.5, 5.0, 20.0}) {
      std::vector<const Choice*> picks;
      for (const ChoiceClass& one : classes_)
        picks.push_back(&best_priced(one, {at.hour * dearer, at.cash * dearer}));
      double hours = 0, cash = 0, gain = 0;
      for (const Choice* pick : picks) hours += pick->hours, cash += pick->cash, gain += pick->gain;
      if (hours > hours_ || cash > cash_) continue;
      for (std::size_t k = 0; k < picks.size(); ++k)
        for (const Choice& other : classes_[k].choices) {
          const Choice& mine = *picks[k];
          if (other.gain <= mine.gain || hours - mine.hours + other.hours > hours_ ||
              cash - mine.cash + other.cash > cash_)
            continue;
          hours += other.hours - mine.hours, cash += other.cash - mine.cash, gain += other.gain - mine.gain;
          picks[k] = &other;
        }
      best = std::max(best, gain);
    }
    return best;
  }

 private:
  double cash_given(double hour) const {
    return least([&](double cash) { return bound({hour, cash}); }, cash_);
  }

  // Where a convex function of a price is least, by golden sections; 0 where there is no limit that a price
  // could stand for. Beyond the total of all gains per unit of the limit the bound only rises.
  template <class Function>
  double least(const Function& function, double limit) const {
    if (limit == no_limit) return 0;
    double total = 0;
    for (const ChoiceClass& one : classes_) {
      double high = -no_limit, low = no_limit;
      for (const Choice& choice : one.choices)
        high = std::max(high, choice.gain), low = std::min(low, choice.gain);
      total += high - low;
    }
    double a = 0, b = std::max(total, 1.0) / std::max(limit, 1e-3);
    constexpr double golden = 0.6180339887498949;
    for (int step = 0; step < 40; ++step) {
      const double c = b - golden * (b - a), d = a + golden * (b - a);
      if (function(c) <= function(d))
        b = d;
      else
        a = c;
    }
    return function(0) <= function(a) ? 0 : a;
  }

  const std::vector<ChoiceClass>& classes_;
  double hours_, cash_;
};

// For each number of classes decided: what the rest needs at least, and gains at most at some prices.
struct Rest {
  std::vector<double> hours, cash;
  std::vector<std::vector<double>> gain;  // by prices
};

Rest rest_of(const std::vector<ChoiceClass>& classes, const Problem& problem,
             const std::vector<ShadowPrices>& all) {
  const std::size_t n = classes.size();
  Rest rest{std::vector<double>(n + 1), std::vector<double>(n + 1), {}};
  rest.gain.assign(all.size(), std::vector<double>(n + 1));
  for (std::size_t k = n; k > 0; --k) {
    double hours = no_limit, cash = no_limit;
    for (const Choice& choice : classes[k - 1].choices)
      hours = std::min(hours, choice.hours), cash = std::min(cash, choice.cash);
    rest.hours[k - 1] = rest.hours[k] + hours;
    rest.cash[k - 1] = rest.cash[k] + cash;
    for (std::size_t p = 0; p < all.size(); ++p)
      rest.gain[p][k - 1] =
          rest.gain[p][k] + Problem::priced(problem.best_priced(classes[k - 1], all[p]), all[p]);
  }
  return rest;
}

}  // namespace

Knapsack best_set(const std::vector<ChoiceClass>& classes, const Limits& limits) {
  const Problem problem(classes, limits);
  const std::vector<ShadowPrices> all = {ShadowPrices{}, problem.hour_only(), problem.cash_only(),
                                         problem.best_prices()};
  const Rest rest = rest_of(classes, problem, all);

  Knapsack result;
  result.least_hours = rest.hours[0];
  result.least_cash = rest.cash[0];
  if (result.least_hours > problem.hours() || result.least_cash > problem.cash()) return result;

  double reached = -no_limit;
  for (const ShadowPrices& prices : all) reached = std::max(reached, problem.guess(prices));
  // Sums are rounded: what seems to miss the best by less than this may be it.
  const double doubt = 1e-9 * (1 + std::abs(reached));

  const auto keep = [&](std::size_t k, double hours, double cash, double gain) {
    if (hours + rest.hours[k] > problem.hours() || cash + rest.cash[k] > problem.cash()) return false;
    if (reached == -no_limit) return true;
    for (std::size_t p = 0; p < all.size(); ++p) {
      const ShadowPrices at = all[p];
      const double left = (at.hour > 0 ? at.hour * (problem.hours() - hours) : 0) +
                          (at.cash > 0 ? at.cash * (problem.cash() - cash) : 0);
      if (gain + rest.gain[p][k] + left < reached - doubt) return false;
    }
    return true;
  };
  const std::vector<ChoiceSet> sets = undominated(classes, keep);
  for (const ChoiceSet& set : sets)
    if (!result.best || set.gain > result.best->gain) result.best = set;
  return result;
}

}  // namespace nonrunner::appraisal

#include "resale/asking_price.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace nonrunner::resale {

namespace {

constexpr int week = 7;
constexpr std::size_t prices_most = 24, holds_most = 8;
// Common practice, no source: above the first the plan is to wait for offers; who asks more than one in four would pay is not
// called, nor before one in four of those has come.
constexpr double hardly_anybody_buys = 0.9, draw_offers = 0.25;

// The market with its running sums, so that one plan is weighed in a few operations.
class Sums {
 public:
  explicit Sums(const Market& market) : market_(market), fetches_(market.fetches) {
    assert(!fetches_.empty() && !market.sold_on_day.empty());
    std::sort(fetches_.begin(), fetches_.end());
    below_.push_back(0);
    for (const double s : fetches_) below_.push_back(below_.back() + s);
    sold_.push_back(0);
    days_.push_back(0);
    for (std::size_t day = 1; day <= market.sold_on_day.size(); ++day) {
      sold_.push_back(sold_.back() + market.sold_on_day[day - 1]);
      days_.push_back(days_.back() + static_cast<double>(day) * market.sold_on_day[day - 1]);
    }
  }

  const std::vector<double>& fetches() const { return fetches_; }
  int last_day() const { return static_cast<int>(market_.sold_on_day.size()); }
  double mean_days() const { return days_.back() / sold_.back(); }
  // Chance of having sold by then at a right price, and the sum of day x chance up to then.
  double sold_by(int day) const { return sold_[std::min(static_cast<std::size_t>(day), sold_.size() - 1)]; }
  double days_by(int day) const { return days_[std::min(static_cast<std::size_t>(day), days_.size() - 1)]; }
  std::size_t first_that_pays(double price) const {
    const double wanted = price * market_.realised * (1 - 1e-12);
    return static_cast<std::size_t>(std::lower_bound(fetches_.begin(), fetches_.end(), wanted) -
                                    fetches_.begin());
  }
  double sum_below(std::size_t place) const { return below_[place]; }
  double sum_from(std::size_t place) const { return below_.back() - below_[place]; }

 private:
  const Market& market_;
  std::vector<double> fetches_, below_, sold_, days_;
};

struct Flow {
  double net = 0, got = 0, days = 0, offers = 0;
};

// Expected figures of a plan; everything is a sum over the equally likely values of S.
Flow flow(const Market& market, const Sums& sums, const double* prices, const int* holds,
          std::size_t stages) {
  const std::size_t n = sums.fetches().size();
  Flow flow;
  // What is left of the groups that earlier, higher prices could have sold: number, and sum of S.
  double left = 0, left_sum = 0;
  std::size_t from = n;
  int day = 0;
  for (std::size_t i = 0; i < stages; ++i) {
    const std::size_t pays = sums.first_that_pays(prices[i]);
    left += static_cast<double>(from - pays);
    left_sum += sums.sum_from(pays) - sums.sum_from(from);
    from = pays;
    const double sold = sums.sold_by(holds[i]);
    flow.got += left * sold * prices[i] * market.realised;
    flow.days += left * (sold * day + sums.days_by(holds[i]));
    left *= 1 - sold;
    left_sum *= 1 - sold;
    day += holds[i];
  }
  const double rest = left + static_cast<double>(from);
  flow.got += (left_sum + sums.sum_below(from)) * market.realised;
  flow.days += rest * (day + sums.mean_days());
  const double all = static_cast<double>(n);
  flow.got /= all, flow.days /= all;
  flow.offers = rest / all;
  flow.net = flow.got * (1 - market.rate) - flow.days * market.per_day;
  return flow;
}

// From one point of S / realised to the other.
std::vector<double> round_prices(const Market& market, const Sums& sums, double from, double to) {
  const auto& s = sums.fetches();
  const auto point = [&](double share) {
    return s[static_cast<std::size_t>(share * static_cast<double>(s.size() - 1) + 0.5)] / market.realised;
  };
  const double low = point(from), high = point(to);
  // Steps of 1, 2 or 5 times a power of ten, the finest that keeps the list short.
  double step = std::pow(10.0, std::floor(std::log10(std::max(high, 1.0))) - 2);
  for (int i = 0; (high - low) / step > static_cast<double>(prices_most) - 2; ++i)
    step *= i % 3 == 1 ? 2.5 : 2;
  std::vector<double> prices;
  for (double price = std::max(step, std::floor(low / step) * step); price <= high + step; price += step)
    prices.push_back(std::round(price / step) * step);
  std::reverse(prices.begin(), prices.end());
  return prices;
}

std::vector<int> round_holds(const Sums& sums) {
  const int weeks = std::max(1, (sums.last_day() + week - 1) / week);
  const int step = (weeks + static_cast<int>(holds_most) - 1) / static_cast<int>(holds_most);
  std::vector<int> holds;
  for (int each = step; each <= weeks + step - 1; each += step) holds.push_back(each * week);
  return holds;
}

// Expected net from each day on, for a car that is still there on it: from the last day backwards, for each
// S.
std::vector<double> worth_by_day(const Market& market, const Sums& sums, const std::vector<double>& prices,
                                 const std::vector<int>& holds) {
  int end = 0;
  for (const int hold : holds) end += hold;
  const auto days = static_cast<std::size_t>(end);
  std::vector<double> value(days + 1), there(days + 1);
  for (const double s : sums.fetches()) {
    double net = s * market.realised * (1 - market.rate) - sums.mean_days() * market.per_day;
    // Chance of still being there at the start of each stage.
    std::vector<double> reach = {1};
    for (std::size_t i = 0; i < prices.size(); ++i)
      reach.push_back(reach.back() *
                      (s >= prices[i] * market.realised * (1 - 1e-12) ? 1 - sums.sold_by(holds[i]) : 1));
    value[days] += reach.back() * net;
    there[days] += reach.back();
    int start = end;
    for (std::size_t i = prices.size(); i > 0; --i) {
      const int hold = holds[i - 1];
      start -= hold;
      const bool pays = s >= prices[i - 1] * market.realised * (1 - 1e-12);
      const double sale = prices[i - 1] * market.realised * (1 - market.rate);
      for (int day = hold - 1; day >= 0; --day) {
        // It goes on the next day with this chance, given that it is still there.
        const double still = 1 - sums.sold_by(day);
        const double chance = !pays || still <= 0 ? 0 : (sums.sold_by(day + 1) - sums.sold_by(day)) / still;
        net = chance * sale + (1 - chance) * net - market.per_day;
        const double here = reach[i - 1] * (pays ? still : 1);
        value[static_cast<std::size_t>(start + day)] += here * net;
        there[static_cast<std::size_t>(start + day)] += here;
      }
    }
  }
  std::vector<double> worth;
  for (std::size_t day = 0; day <= days && there[day] > 1e-12; ++day)
    worth.push_back(value[day] / there[day]);
  return worth;
}

AskingPlan described(const Market& market, const Sums& sums, const std::vector<double>& prices,
                     const std::vector<int>& holds) {
  const Flow whole = flow(market, sums, prices.data(), holds.data(), prices.size());
  AskingPlan plan;
  plan.best_offer_chance = std::clamp(whole.offers, 0.0, 1.0);
  plan.expected_got = whole.got;
  plan.expected_days = whole.days;
  plan.expected_net = whole.net;
  plan.worth = worth_by_day(market, sums, prices, holds);
  int day = 0;
  double unsold = 1;
  for (std::size_t i = 0; i < prices.size(); ++i) {
    const double after = flow(market, sums, prices.data(), holds.data(), i + 1).offers;
    PriceStage stage{
        prices[i], day, day + holds[i], std::clamp(unsold - after, 0.0, 1.0), prices[i] * market.realised, 0};
    if (static_cast<std::size_t>(day) < plan.worth.size())
      stage.take_from = plan.worth[static_cast<std::size_t>(day)] / (1 - market.rate);
    plan.stages.push_back(stage);
    unsold = after;
    day += holds[i];
  }
  return plan;
}

}  // namespace

Market after_standing(const Market& market, const std::vector<Stood>& stood) {
  const Sums sums(market);
  std::vector<double> weights;
  double total = 0;
  for (const double s : sums.fetches()) {
    double weight = 1;
    for (const Stood& each : stood)
      if (s >= each.price * market.realised * (1 - 1e-12))
        weight *= std::max(0.0, 1 - sums.sold_by(std::max(each.days, 0)));
    weights.push_back(weight);
    total += weight;
  }
  // Longer than any buyer of a right price takes, at a price below all: the lowest value is what is left to
  // believe.
  if (!(total > 1e-12)) weights.assign(1, total = 1);
  Market after = market;
  const std::size_t n = market.fetches.size();
  double below = 0;
  std::size_t at = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double wanted = total * (static_cast<double>(i) + 0.5) / static_cast<double>(n);
    while (at + 1 < weights.size() && below + weights[at] < wanted) below += weights[at++];
    after.fetches[i] = sums.fetches()[at];
  }
  return after;
}

AskingPlan played(const Market& market, const std::vector<double>& prices, const std::vector<int>& weeks) {
  assert(!prices.empty() && prices.size() == weeks.size());
  std::vector<int> holds;
  for (const int each : weeks) holds.push_back(each * week);
  return described(market, Sums(market), prices, holds);
}

namespace {

// Every falling list of one up to so many of these prices with every list of holds. Of equal plans the shorter one is found
// first.
AskingPlan best_plan(const Market& market, const Sums& sums, const std::vector<double>& prices,
                     const std::vector<int>& holds, std::size_t most_stages) {
  double best = -std::numeric_limits<double>::infinity();
  std::vector<double> best_prices;
  std::vector<int> best_holds;
  std::vector<double> price(most_stages);
  std::vector<int> hold(most_stages);
  const auto look = [&](std::size_t stages) {
    const double net = flow(market, sums, price.data(), hold.data(), stages).net;
    if (net > best + 1e-9 * (1 + std::abs(best)) || best_prices.empty()) {
      best = net;
      best_prices.assign(price.begin(), price.begin() + static_cast<std::ptrdiff_t>(stages));
      best_holds.assign(hold.begin(), hold.begin() + static_cast<std::ptrdiff_t>(stages));
    }
  };
  const auto nest = [&](const auto& self, std::size_t stage, std::size_t stages, std::size_t first) -> void {
    if (stage == stages) return look(stages);
    for (std::size_t i = first; i < prices.size(); ++i) {
      price[stage] = prices[i];
      for (const int each : holds) {
        hold[stage] = each;
        self(self, stage + 1, stages, i + 1);
      }
    }
  };
  for (std::size_t stages = 1; stages <= std::min(most_stages, prices.size()); ++stages)
    nest(nest, 0, stages, 0);
  return described(market, sums, best_prices, best_holds);
}

}  // namespace

AskingPlan asking_plan(const Market& market) {
  const Sums sums(market);
  std::vector<int> holds = round_holds(sums);
  AskingPlan plan = best_plan(market, sums, round_prices(market, sums, 0.02, 0.98), holds, 3);
  if (plan.best_offer_chance <= hardly_anybody_buys) return plan;
  std::vector<double> prices = round_prices(market, sums, draw_offers, 1 - draw_offers);
  const auto all = static_cast<double>(sums.fetches().size());
  std::erase_if(prices, [&](double price) {
    return all - static_cast<double>(sums.first_that_pays(price)) < draw_offers * all;
  });
  std::erase_if(holds, [&](int hold) { return sums.sold_by(hold) < draw_offers; });
  assert(!prices.empty() &&
         !holds.empty());  // the lowest lies at the lower point, the longest holds to the last day
  plan = best_plan(market, sums, prices, holds, 1);
  plan.for_offers = plan.best_offer_chance > 0.5;
  return plan;
}

std::optional<int> part_out_day(const AskingPlan& plan, double part_out) {
  for (std::size_t day = 0; day < plan.worth.size(); ++day)
    if (plan.worth[day] < part_out) return static_cast<int>(day);
  return std::nullopt;
}

}  // namespace nonrunner::resale

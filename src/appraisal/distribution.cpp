#include "appraisal/distribution.h"

#include <algorithm>
#include <utility>

#include "appraisal/sums.h"
#include "chance/sobol.h"

namespace nonrunner::appraisal {

namespace {

constexpr std::size_t block =
    SobolStream::block_size;  // points at a time: their coordinates stay in the cache

class Drawing {
 public:
  Drawing(const Job& job, const SoundValue& sound, const Courses& courses, const States& states,
          const Beliefs& beliefs, bool evenly)
      : job_(job),
        courses_(courses),
        states_(states),
        chances_(state_chances(job, beliefs)),
        sums_(sound, courses, states, chances_),
        pace_(sums_.term_of(job.shop.pace)),
        fees_(sums_.term_of(job.deal.fees)),
        members_(sums_.size()) {
    set_chances(beliefs, evenly);
  }

  Drawn run(std::size_t points, std::uint64_t seed) {
    Drawn drawn;
    drawn.cash.resize(points);
    drawn.hours.resize(points);
    if (job_.shop.money_rate > 0) drawn.days.resize(points);
    if (fees_) drawn.fees.resize(points);
    drawn.state.resize(points);
    drawn.drawn_with = chances_;
    stream_.emplace(sums_.coordinates(), seed);
    for (std::size_t first = 0; first < points; first += block) {
      stream_->go_to(first / block);
      run_block(first, std::min(block, points - first), drawn);
    }
    return drawn;
  }

 private:
  void set_chances(const Beliefs& beliefs, bool evenly) {
    std::vector<double> draws = beliefs.cause;
    const auto possible = std::count_if(draws.begin(), draws.end(), [](double p) { return p > 0; });
    if (evenly && possible > 1) {
      for (double& p : draws)
        if (p > 0) p = 0.5 * p + 0.5 / static_cast<double>(possible);
      for (std::size_t s = 0; s < chances_.size(); ++s)
        if (const double believed = beliefs.cause[s / states_.masks]; believed > 0)
          chances_[s] *= draws[s / states_.masks] / believed;
    }
    double sum = 0;
    for (const double p : draws) cause_below_.push_back(of_two_to_the_32(sum += p));
    for (std::size_t c = draws.size(); c-- > 0;) {  // rounding must not leave the last draws without a cause
      cause_below_[c] = std::uint64_t{1} << 32;
      if (draws[c] > 0) break;
    }
    for (std::size_t j = 0; j < job_.troubles.size(); ++j)
      troubles_.push_back({sums_.coordinate_of(job_.troubles[j]), of_two_to_the_32(beliefs.trouble[j])});
  }

  SobolStream::Coordinate coordinate(std::size_t which) const { return stream_->of(which); }

  // The state of each point of the block, into `states`.
  void draw_states(std::size_t points, std::uint32_t* states) const {
    const auto masks = static_cast<std::uint32_t>(states_.masks);
    const SobolStream::Coordinate u = coordinate(Sums::coordinate_of_cause);
    std::fill_n(states, points, 0u);
    for (std::size_t c = 0; c + 1 < cause_below_.size(); ++c)
      for (std::size_t i = 0; i < points; ++i) states[i] += u[i] >= cause_below_[c] ? masks : 0;
    for (std::size_t j = 0; j < troubles_.size(); ++j) {
      const SobolStream::Coordinate of = coordinate(troubles_[j].first);
      for (std::size_t i = 0; i < points; ++i) states[i] += of[i] < troubles_[j].second ? 1u << j : 0;
    }
  }

  std::size_t turn_at(std::size_t i, std::size_t c) const {
    const Chain& chain = courses_.chain(c);
    if (chain.steps.size() == 1 && chain.fails == 0) return 0;
    const double u = (coordinate(Sums::coordinate_of_turn)[i] + 0.5) * 0x1p-32;
    double sum = 0;
    for (std::size_t step = 0; step < chain.steps.size(); ++step)
      if (u < (sum += chain.steps[step].cures)) return step;
    return chain.fails > 0 ? chain.steps.size() : chain.steps.size() - 1;
  }

  void run_block(std::size_t first, std::size_t points, Drawn& drawn) {
    pace_drawn_.assign(points, job_.shop.pace.low);
    if (pace_) add_to_all({*pace_}, pace_drawn_);
    if (fees_) {
      in_all_cash_.assign(points, job_.deal.fees.low);
      add_to_all({*fees_}, in_all_cash_);
      std::ranges::copy(in_all_cash_, drawn.fees.begin() + static_cast<std::ptrdiff_t>(first));
    }
    in_all_cash_.assign(points, 0.0);
    in_all_hours_.assign(points, 0.0);
    in_all_days_.assign(points, 0.0);
    add_to_all(sums_.common().cash_terms, in_all_cash_);
    add_to_all(sums_.common().hour_terms, in_all_hours_);
    add_to_all(sums_.common().day_terms, in_all_days_);
    draw_states(points, &drawn.state[first]);
    used_.clear();
    for (std::size_t i = 0; i < points; ++i) {
      const std::size_t state = drawn.state[first + i];
      const bool put_right = states_.best[state].course == Course::put_right;
      const std::size_t sum = sums_.of(state, put_right ? turn_at(i, state / states_.masks) : 0);
      if (members_[sum].empty()) used_.push_back(sum);
      members_[sum].push_back(static_cast<std::uint32_t>(i));
    }
    for (const std::size_t sum : used_) {
      add_up(sums_[sum], members_[sum], first, drawn);
      members_[sum].clear();
    }
  }

  void add_to_all(const std::vector<Term>& terms, std::vector<double>& into) const {
    for (const Term& term : terms) {
      const SobolStream::Coordinate u = coordinate(term.coordinate);
      term.table->add_units(u.pattern, u.start, into.size(), term.weight, into.data());
    }
  }

  void add_to_members(const std::vector<Term>& terms, const std::vector<std::uint32_t>& members,
                      std::vector<double>& into) {
    u_.resize(members.size());
    for (const Term& term : terms) {
      const SobolStream::Coordinate u = coordinate(term.coordinate);
      for (std::size_t k = 0; k < members.size(); ++k) u_[k] = u.pattern[members[k]];
      term.table->add_units(u_.data(), u.start, members.size(), term.weight, into.data());
    }
  }

  void add_up(const Sum& sum, const std::vector<std::uint32_t>& members, std::size_t first, Drawn& drawn) {
    cash_.assign(members.size(), sum.cash);
    hours_.assign(members.size(), sum.hours);
    days_.assign(members.size(), sum.days);
    add_to_members(sum.cash_terms, members, cash_);
    add_to_members(sum.hour_terms, members, hours_);
    add_to_members(sum.day_terms, members, days_);
    for (const Coin& coin : sum.coins) {
      const SobolStream::Coordinate u = coordinate(coin.coordinate);
      for (std::size_t k = 0; k < members.size(); ++k) {
        if (u[members[k]] >= coin.below) continue;
        cash_[k] += coin.constant;
        if (coin.amount)
          cash_[k] +=
              coin.amount->weight *
              static_cast<double>(coin.amount->table->unit(coordinate(coin.amount->coordinate)[members[k]]));
      }
    }
    borne_.assign(members.size(), sum.borne_hours);
    add_to_members(sum.borne_terms, members, borne_);
    for (std::size_t k = 0; k < members.size(); ++k) {
      const std::size_t i = members[k];
      const double hours = (hours_[k] + in_all_hours_[i]) * pace_drawn_[i];
      const double days =
          days_[k] + in_all_days_[i] + (hours + borne_[k] * pace_drawn_[i]) / job_.shop.hours_per_week * 7;
      drawn.hours[first + i] = hours;
      if (!drawn.days.empty()) drawn.days[first + i] = days;
      drawn.cash[first + i] = cash_[k] + in_all_cash_[i] - days * job_.shop.holding_per_day;
    }
  }

  const Job& job_;
  const Courses& courses_;
  const States& states_;
  std::vector<double> chances_;  // of the states, as they are drawn
  Sums sums_;
  std::optional<Term> pace_, fees_;
  std::vector<std::uint64_t> cause_below_;
  std::vector<std::pair<std::size_t, std::uint64_t>> troubles_;  // coordinate, and below what it is present
  std::optional<SobolStream> stream_;
  std::vector<std::uint32_t> u_;                     // one coordinate of the points of one sum
  std::vector<std::vector<std::uint32_t>> members_;  // by sum: the points of the block that it is for
  std::vector<std::size_t> used_;
  std::vector<double> pace_drawn_, in_all_cash_, in_all_hours_, in_all_days_;  // by point of the block
  std::vector<double> cash_, hours_, days_, borne_;                            // by member of a sum
};

template <class Value>
WeightedSample sample_of(const Drawn& drawn, Value value) {
  std::vector<double> values(drawn.cash.size());
  for (std::size_t i = 0; i < values.size(); ++i) values[i] = value(i);
  return WeightedSample(std::move(values));
}

}  // namespace

Drawn draw(const Job& job, const SoundValue& sound, const Courses& courses, const States& states,
           const Beliefs& beliefs, std::size_t points, bool evenly, std::uint64_t seed) {
  return Drawing(job, sound, courses, states, beliefs, evenly).run(points, seed);
}

std::vector<double> weights(const Job& job, const Drawn& drawn, const Beliefs& beliefs) {
  std::vector<double> by_state = state_chances(job, beliefs);
  if (by_state == drawn.drawn_with) return {};
  for (std::size_t s = 0; s < by_state.size(); ++s)
    by_state[s] = drawn.drawn_with[s] > 0 ? by_state[s] / drawn.drawn_with[s] : 0;
  std::vector<double> all(drawn.state.size());
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = by_state[drawn.state[i]];
  return all;
}

WeightedSample break_even_prices(const Job& job, const Drawn& drawn) {
  return sample_of(drawn, [&](std::size_t i) {
    return (drawn.cash[i] / drawn.interest(job, i) - drawn.fees_of(job, i)) / (1 + job.deal.rate);
  });
}

WeightedSample cash_profits(const Job& job, const Drawn& drawn, double price,
                            const WeightedSample& break_even) {
  // Without interest the cash profit is what the price stays below the break-even price, tax included: the
  // same order.
  if (job.shop.money_rate == 0) return break_even.moved(1 + job.deal.rate, -price * (1 + job.deal.rate));
  return sample_of(drawn, [&](std::size_t i) { return drawn.cash_profit(job, price, i); });
}

WeightedSample profits(const Job& job, const Drawn& drawn, double price) {
  return sample_of(drawn, [&](std::size_t i) {
    return drawn.cash_profit(job, price, i) - drawn.hours[i] * job.shop.hour;
  });
}

}  // namespace nonrunner::appraisal

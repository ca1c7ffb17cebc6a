// The cash profit and the profit as distributions: points of a randomised Sobol sequence through the whole
// model, the best course taken in every state and the best fixes made, under the offer that the states are
// of.
//
// Each point draws a state, how the corrections turn out, which salvage parts are bad, and every uncertain
// amount, each from its own coordinate (causes share coordinates, since only one holds). Causes may be drawn
// more evenly than they are believed, and weighed back, so that the same points serve after a test
// (`weights`). Fixed seed: the same job gives the same points on every machine. Speed: quantiles come from
// tables (chance/quantile_table.h), off by at most 1e-4 of each amount's width. Known to be right by the
// means, which are known by formula, by single amounts, and by 4,000,000 pseudo-random points of a second,
// plain writing of the model (tests/appraisal/distribution.cpp).
#pragma once
#include <cstdint>
#include <vector>

#include "appraisal/evidence.h"
#include "appraisal/job.h"
#include "appraisal/outlook.h"
#include "appraisal/sound_value.h"
#include "chance/sobol.h"
#include "chance/weighted_sample.h"

namespace nonrunner::appraisal {

constexpr std::size_t points_default = 65536;
constexpr std::size_t points_min = 64;  // fewer say nothing of a chance of one in twenty
constexpr std::size_t points_max = 1u << 24;

struct Drawn {
  // One value a point. `cash` and `hours` with the opening up, without the price and the fees paid with it.
  std::vector<double> cash, hours;
  std::vector<double> days;          // empty where no interest asks for them
  std::vector<double> fees;          // empty where they are constant
  std::vector<std::uint32_t> state;  // cause * 2^troubles + set of troubles
  std::vector<double> drawn_with;    // by state: the chance with which it was drawn

  double fees_of(const Job& job, std::size_t i) const { return fees.empty() ? job.deal.fees.low : fees[i]; }
  double interest(const Job& job, std::size_t i) const {  // what 1 paid at the purchase comes to
    return days.empty() ? 1 : 1 + job.shop.money_rate * days[i] / 365;
  }
  double cash_profit(const Job& job, double price, std::size_t i) const {
    return cash[i] - (price * (1 + job.deal.rate) + fees_of(job, i)) * interest(job, i);
  }
};

// `evenly`: draw causes half as believed, half alike, because other beliefs will be asked about.
// Throws Refusal where the job has more uncertain amounts than the Sobol sequence has coordinates.
Drawn draw(const Job&, const SoundValue&, const Courses&, const States&, const Beliefs&, std::size_t points,
           bool evenly, std::uint64_t seed = SobolStream::seed_default);

// For each point its weight under these beliefs; empty where all weigh alike.
std::vector<double> weights(const Job&, const Drawn&, const Beliefs&);

// For each point the price at which its cash profit is zero: it is a loss at every higher price.
WeightedSample break_even_prices(const Job&, const Drawn&);
WeightedSample cash_profits(const Job&, const Drawn&, double price, const WeightedSample& break_even_prices);
WeightedSample profits(const Job&, const Drawn&, double price);

}  // namespace nonrunner::appraisal

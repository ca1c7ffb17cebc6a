// Own records in place of common practice, as far as there are any: every figure is shrunk towards a stated
// prior by the number of cars (or parts) that it rests on, and shown beside both.
//
// A prior counts as `weight` cars of its own: the result is what those and the own ones together say.
//   mean, spread   normal with conjugate prior: mean and variance of the pooled cars (section 3.3 of the book
//                  below, with both prior sample sizes = weight)
//   shares         beta-binomial: (weight p + hits) / (weight + trials)                     (section 2.4)
//   causes         Dirichlet-multinomial: (weight p_i + n_i) / (weight + sum n)             (section 3.4)
//
// Source: A. Gelman and others, Bayesian Data Analysis, 3rd ed. 2013 (from memory). Known to be right by
// closed forms (tests/resale/own_records.cpp).
#pragma once
#include <cstddef>
#include <optional>
#include <vector>

namespace nonrunner::resale {

// Sample mean and standard deviation (divisor n - 1), by two passes over differences: right to the last
// digits where the values differ little (tests/outside/mean_and_spread.cpp).
struct MeanAndSpread {
  std::size_t number = 0;
  double mean = 0;           // 0 where there is none
  std::optional<double> sd;  // needs two
};
MeanAndSpread mean_and_spread(const std::vector<double>&);

struct PriorMean {
  double mean = 0;
  double sd = 0;      // between cars, not negative
  double weight = 1;  // cars, above zero
};

struct ShrunkMean {
  PriorMean prior;
  MeanAndSpread own;
  double mean = 0;
  double sd = 0;
};
ShrunkMean shrunk(const PriorMean&, const std::vector<double>& own);

struct PriorShare {
  double share = 0;   // 0 to 1
  double weight = 1;  // trials, above zero
};

struct ShrunkShare {
  PriorShare prior;
  std::size_t trials = 0, hits = 0;
  std::optional<double> own;  // needs one trial
  double share = 0;
  double sd = 0;  // of the share itself: how well it is known
};
ShrunkShare shrunk(const PriorShare&, std::size_t hits, std::size_t trials);  // hits <= trials

struct ShrunkOdds {
  double weight = 0;
  std::size_t cars = 0;
  std::vector<double> prior;  // scaled to 1
  std::vector<std::size_t> counts;
  std::vector<double> share;  // adds up to 1
};
// `prior`: odds on any positive scale, not negative, not all zero; as many as counts. `weight` cars, above
// zero.
ShrunkOdds shrunk(const std::vector<double>& prior, double weight, const std::vector<std::size_t>& counts);

// How the chances of loss that were stated before buying went. Exact: the number of losses is a sum of
// independent events with different chances (its distribution is built one car at a time).
struct Calibration {
  std::size_t cars = 0;
  double expected = 0;     // losses that the stated chances add up to
  std::size_t losses = 0;  // that there were
  double brier =
      0;  // mean of (chance - outcome)^2: 0 is a prophet, 0.25 a coin (G. W. Brier 1950, from memory)
  double so_many = 1;  // chance of at least as many losses, if the stated chances were right
  double so_few = 1;   // chance of at most as many
};
// `chances` 0 to 1, as many as `lost`.
Calibration calibration(const std::vector<double>& chances, const std::vector<bool>& lost);

}  // namespace nonrunner::resale

#include "resale/own_records.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace nonrunner::resale;
using Catch::Matchers::WithinAbs;

TEST_CASE("without own cars the prior stands, with many it fades", "[resale]") {
  const PriorMean prior{1.2, 0.2, 5};
  const ShrunkMean none = shrunk(prior, std::vector<double>{});
  CHECK(none.mean == 1.2);
  CHECK(none.sd == 0.2);
  CHECK(none.own.number == 0);
  std::vector<double> many;
  for (int i = 0; i < 5000; ++i) many.push_back(i % 2 == 0 ? 1.5 : 1.7);
  const ShrunkMean faded = shrunk(prior, many);
  CHECK_THAT(faded.mean, WithinAbs(1.6, 1e-3));
  CHECK_THAT(faded.sd, WithinAbs(0.1, 2e-3));
}

TEST_CASE("a prior of w cars gives what w cars like it and the own ones give together", "[resale]") {
  // Four cars with mean 1.2 and (divisor 4) variance 0.04 stand for the prior.
  const std::vector<double> believed = {1.0, 1.4, 1.0, 1.4}, own = {1.5, 1.1, 1.9};
  const ShrunkMean result = shrunk(PriorMean{1.2, 0.2, 4}, own);
  std::vector<double> all = believed;
  all.insert(all.end(), own.begin(), own.end());
  const MeanAndSpread pooled = mean_and_spread(all);
  CHECK_THAT(result.mean, WithinAbs(pooled.mean, 1e-12));
  CHECK_THAT(result.sd * result.sd, WithinAbs(*pooled.sd * *pooled.sd * 6 / 7, 1e-12));
  CHECK_THAT(result.own.mean, WithinAbs(1.5, 1e-12));
  CHECK_THAT(*result.own.sd, WithinAbs(0.4, 1e-12));
  CHECK(result.prior.mean == 1.2);
  const ShrunkMean one = shrunk(PriorMean{1.2, 0.2, 4}, std::vector<double>{1.7});
  CHECK_THAT(one.mean, WithinAbs((4 * 1.2 + 1.7) / 5, 1e-12));
  CHECK_FALSE(one.own.sd);
}

TEST_CASE("a share is pulled towards the prior by trials", "[resale]") {
  // The rule of succession: a flat beta prior (1/2, weight 2) gives (hits + 1) / (trials + 2). P. S. Laplace
  // 1774, from memory.
  const ShrunkShare rule = shrunk(PriorShare{0.5, 2}, 9, 10);
  CHECK_THAT(rule.share, WithinAbs(10 / 12.0, 1e-15));
  CHECK_THAT(rule.sd, WithinAbs(std::sqrt(10.0 * 2 / (12.0 * 12 * 13)), 1e-15));
  CHECK(*rule.own == 0.9);
  const ShrunkShare none = shrunk(PriorShare{0.15, 10}, 0, 0);
  CHECK_THAT(none.share, WithinAbs(0.15, 1e-15));
  CHECK_FALSE(none.own);
}

TEST_CASE("odds of causes are pulled towards the stated ones by cars", "[resale]") {
  const ShrunkOdds odds = shrunk(std::vector<double>{22, 30, 34, 14}, 10, {0, 3, 1, 1});
  CHECK(odds.cars == 5);
  CHECK_THAT(odds.share[0], WithinAbs(2.2 / 15, 1e-15));
  CHECK_THAT(odds.share[1], WithinAbs(6.0 / 15, 1e-15));
  CHECK_THAT(odds.share[2], WithinAbs(4.4 / 15, 1e-15));
  CHECK_THAT(odds.share[3], WithinAbs(2.4 / 15, 1e-15));
  CHECK_THAT(odds.prior[2], WithinAbs(0.34, 1e-15));
}

TEST_CASE("stated chances of loss are judged by all ways in which the cars could have gone", "[resale]") {
  const std::vector<double> chances = {0.05, 0.1, 0.3, 0.5, 0.02, 0.25, 0.0};
  const std::vector<bool> lost = {false, true, false, true, false, true, false};
  const Calibration found = calibration(chances, lost);
  double at_least = 0, at_most = 0;
  for (unsigned way = 0; way < 128; ++way) {
    double chance = 1;
    unsigned losses = 0;
    for (unsigned i = 0; i < 7; ++i) {
      const bool loss = way >> i & 1U;
      chance *= loss ? chances[i] : 1 - chances[i];
      losses += loss;
    }
    if (losses >= 3) at_least += chance;
    if (losses <= 3) at_most += chance;
  }
  CHECK(found.cars == 7);
  CHECK(found.losses == 3);
  CHECK_THAT(found.expected, WithinAbs(1.22, 1e-12));
  CHECK_THAT(found.so_many, WithinAbs(at_least, 1e-12));
  CHECK_THAT(found.so_few, WithinAbs(at_most, 1e-12));
  CHECK_THAT(found.brier, WithinAbs((0.0025 + 0.81 + 0.09 + 0.25 + 0.0004 + 0.5625) / 7, 1e-12));
  const Calibration none = calibration({}, {});
  CHECK(none.so_many == 1);
  CHECK(none.so_few == 1);
}

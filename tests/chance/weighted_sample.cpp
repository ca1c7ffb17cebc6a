#include "chance/weighted_sample.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace nonrunner;

TEST_CASE("quantiles of a sample without weights are its order statistics", "[chance]") {
  const WeightedSample sample({30, -10, 20, 0.5, 10, -0.25, 40, 50, 60, 70});
  CHECK(sample.quantile(0.05) == -10);
  CHECK(sample.quantile(0.1) == -10);
  CHECK(sample.quantile(0.11) == -0.25);
  CHECK(sample.quantile(0.5) == 20);
  CHECK(sample.quantile(1) == 70);
  CHECK(sample.share_below(0) == 0.2);
  CHECK(sample.share_below(-10) == 0);
  CHECK(sample.share_below(1000) == 1);
}

TEST_CASE("a sample that is moved has its quantiles moved", "[chance]") {
  const WeightedSample moved = WeightedSample({3, 1, 2}).moved(2, 5);
  CHECK(moved.quantile(0.1) == 7);
  CHECK(moved.quantile(1, {0, 1, 1}) == 9);
  CHECK(moved.mean() == 9);
}

TEST_CASE("a value without weight is no quantile, and minus zero is zero", "[chance]") {
  CHECK(WeightedSample({1, 2, 3}).quantile(0, {0, 1, 1}) == 2);
  CHECK_FALSE(std::signbit(WeightedSample({-0.0, 0.0}).quantile(0.5)));
}

TEST_CASE("a weight counts like that many equal values", "[chance]") {
  std::mt19937 bits(7);
  for (int round = 0; round < 200; ++round) {
    std::vector<double> values, weights, repeated;
    for (int i = 0; i < 12; ++i) {
      values.push_back(static_cast<double>(bits() % 2001) / 7 - 140);
      weights.push_back(static_cast<double>(bits() % 4));
    }
    weights[3] = 2;
    for (std::size_t i = 0; i < values.size(); ++i)
      for (int k = 0; k < weights[i]; ++k) repeated.push_back(values[i]);
    const WeightedSample weighted(values), plain(repeated);
    for (const double share : {0.03, 0.25, 0.5, 0.77, 0.99})
      CHECK(weighted.quantile(share, weights) == plain.quantile(share));
    CHECK(weighted.share_below(3, weights) == plain.share_below(3));
    CHECK_THAT(weighted.mean(weights), Catch::Matchers::WithinAbs(plain.mean(), 1e-11));
  }
}

TEST_CASE("a sample is put in order as std::sort would, whatever the sizes and signs of its values",
          "[chance]") {
  std::mt19937_64 bits(11);
  std::vector<double> values = {0.0, -0.0, 1e-300, -1e-300, 1e300, -1e300, 5e-324, 3, 3, 3};
  for (int i = 0; i < 5000; ++i)
    values.push_back(
        std::ldexp(static_cast<double>(bits() >> 11) - 0x1p52, static_cast<int>(bits() % 80) - 60));
  const WeightedSample sample(values);
  std::sort(values.begin(), values.end());
  for (std::size_t i = 0; i < values.size(); ++i)
    REQUIRE(sample.quantile((static_cast<double>(i) + 0.5) / static_cast<double>(values.size())) ==
            values[i]);
}

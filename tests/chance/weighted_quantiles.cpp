// Against the sample that is put in order: with weights whose sums are exact both say the same.
#include "chance/weighted_quantiles.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "chance/weighted_sample.h"

using namespace nonrunner;

TEST_CASE("a few quantiles are those of the sample in order", "[chance]") {
  std::mt19937 bits(11);
  const std::vector<double> shares = {0, 0.05, 0.25, 0.5, 0.75, 0.95, 1};
  for (int round = 0; round < 400; ++round) {
    INFO("round " << round);
    const std::size_t n = round % 4 == 0 ? 1 + bits() % 6 : 1 + bits() % 5000;
    const bool alike = round % 7 == 0, far = round % 3 == 0;
    std::vector<double> values, weights;
    for (std::size_t i = 0; i < n; ++i) {
      values.push_back(alike ? 5 : static_cast<double>(bits() % 3001) / 7 - 140);
      if (far && bits() % 50 == 0) values.back() *= 1e6;
      weights.push_back(static_cast<double>(bits() % 5) / 1024);
    }
    weights[bits() % n] = 0.25;
    const WeightedSample in_order(values);
    CHECK(weighted_quantiles(values, weights, shares) == in_order.quantiles(shares, weights));
    const double mean = in_order.mean(weights);
    CHECK(std::abs(weighted_mean(values, weights) - mean) <= 1e-9 * std::max(1.0, std::abs(mean)));
  }
}

TEST_CASE("among a few quantiles a value without weight is none, and minus zero is zero", "[chance]") {
  CHECK(weighted_quantiles({1, 2, 3}, {0, 1, 1}, {0, 1}) == std::vector<double>{2, 3});
  CHECK(weighted_quantiles({1, 2, 3}, {1, 1, 0}, {1}) == std::vector<double>{2});
  CHECK_FALSE(std::signbit(weighted_quantiles({-0.0, 0.0}, {1, 1}, {0.5})[0]));
}

// Odds of 19 to 1, each drawn at a thousand points: up to 999 it is enough 19 times in 20, however the sums are rounded.
TEST_CASE("a share that round chances add up to is met", "[chance]") {
  for (const double share : {0.95, 0.9, 0.7, 0.3, 0.05}) {
    INFO(share);
    std::vector<double> values, weights;
    for (int i = 0; i < 2000; ++i) {
      values.push_back(i);
      weights.push_back((i < 1000 ? share : 1 - share) / 1000);
    }
    CHECK(WeightedSample(values).quantile(share, weights) == 999);
    CHECK(weighted_quantiles(values, weights, {share})[0] == 999);
  }
}

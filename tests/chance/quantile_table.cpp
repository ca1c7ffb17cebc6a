#include "chance/quantile_table.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace nonrunner;

TEST_CASE("the quantile table stays within 1e-4 of the width of Boost.Math's quantiles, for every shape",
          "[chance]") {
  double worst = 0;
  for (int shape = 0; shape <= 40; ++shape) {
    const ThreePoint points{0, shape / 40.0, 1};
    const QuantileTable table(points);
    // Chances spread over all octaves on both sides, the ends of the 32 bits among them.
    for (std::uint32_t i = 0; i < 32; ++i)
      for (const std::uint32_t part : {0u, 0x1000003u, 0x31234567u, 0x5fffffffu, 0x7fffffffu}) {
        const std::uint32_t from_end = i == 31 ? part & 1u : (0x80000000u | part) >> (i + 1);
        for (const std::uint32_t u : {from_end, ~from_end}) {
          const double chance = (u + 0.5) * 0x1p-32;
          worst = std::max(worst, std::abs(table.at(u) - points.quantile(chance)));
        }
      }
  }
  INFO("worst " << worst);
  CHECK(worst < 1e-4);
  CHECK(worst > 1e-9);  // else the comparison compares nothing
}

TEST_CASE("the quantile table never falls as the chance rises, and stays between the ends", "[chance]") {
  for (const ThreePoint points :
       {ThreePoint{5, 7, 11}, ThreePoint{0, 0, 6}, ThreePoint{-3, 2, 2}, ThreePoint{0.9, 1.1, 1.6}}) {
    const QuantileTable table(points);
    double before = points.low;
    for (std::uint64_t u = 0; u < (1ull << 32); u += 65521) {
      const double value = table.at(static_cast<std::uint32_t>(u));
      REQUIRE(value >= before);
      before = value;
    }
    CHECK(before <= points.high);
    CHECK(table.at(0) >= points.low);
    CHECK(table.at(~0u) <= points.high);
  }
}

TEST_CASE("a quantile table of any distribution agrees with the function it was made from", "[chance]") {
  const auto logistic = [](double chance) { return std::log(chance / (1 - chance)); };
  const QuantileTable table(logistic);
  for (const std::uint32_t u : {1u, 70000u, 1u << 20, 1u << 30, 3000000000u, ~0u})
    CHECK_THAT(table.at(u), Catch::Matchers::WithinAbs(logistic((u + 0.5) * 0x1p-32), 3e-4));
}

TEST_CASE("several units at a time are the same as one by one, tails among them", "[chance]") {
  const QuantileTable table(ThreePoint{5, 7, 11});
  std::vector<std::uint32_t> u;
  for (std::uint32_t i = 0; i < 1000; ++i) u.push_back(i * 4294967u + (i % 97 == 0 ? 0u : 12345u));
  for (const std::uint32_t tail : {0u, 1u, 1u << 19, ~0u, ~(1u << 18), 0x7fffffffu, 0x80000000u})
    u.push_back(tail);
  std::vector<double> sums(u.size(), 3.0);
  table.add_units(u.data(), 0x12345678u, u.size(), 0.25, sums.data());
  for (std::size_t i = 0; i < u.size(); ++i)
    REQUIRE(sums[i] == 3.0 + 0.25 * static_cast<double>(table.unit(u[i] ^ 0x12345678u)));
}

#include "resale/regression.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace nonrunner::resale;
using Catch::Matchers::WithinAbs;

namespace {
struct Data {
  std::vector<Row> x;
  Row y;
};
Data scattered(std::mt19937& random, std::size_t rows) {
  std::normal_distribution<double> noise;
  Data data;
  for (std::size_t i = 0; i < rows; ++i) {
    data.x.push_back({1, noise(random), noise(random)});
    data.y.push_back(2 + 0.5 * data.x.back()[1] - data.x.back()[2] + 0.3 * noise(random));
  }
  return data;
}
const Prior weak{.mean = {0, 0.2, -0.4}, .rows = {{0, 0.7, 0}, {0, 0, 1.3}}, .shape = 1.5, .rate = 0.2};
}  // namespace

TEST_CASE("the studentised residual is the distance from what a fit without that row predicts", "[resale]") {
  std::mt19937 random(7);
  for (const Prior& prior : {Prior{}, weak}) {
    const Data data = scattered(random, 8);
    const auto all = fit(data.x, data.y, prior);
    REQUIRE(all);
    for (std::size_t i = 0; i < data.y.size(); ++i) {
      Data others = data;
      others.x.erase(others.x.begin() + static_cast<std::ptrdiff_t>(i));
      others.y.erase(others.y.begin() + static_cast<std::ptrdiff_t>(i));
      const auto without = fit(others.x, others.y, prior);
      REQUIRE(without);
      const Student t = predict(*without, data.x[i]);
      CHECK_THAT(t.df, WithinAbs(all->df() - 1, 1e-12));
      CHECK_THAT(all->studentised[i], WithinAbs((data.y[i] - t.location) / t.scale, 1e-9));
    }
  }
}

TEST_CASE("learning in two steps is learning at once", "[resale]") {
  // The fit after four rows, handed on as the prior of the next four: its rows are those four and the
  // beliefs, about its own coefficients.
  std::mt19937 random(11);
  const Data data = scattered(random, 8);
  const auto half = static_cast<std::ptrdiff_t>(4);
  const std::vector<Row> first(data.x.begin(), data.x.begin() + half),
      second(data.x.begin() + half, data.x.end());
  const auto step = fit(first, Row(data.y.begin(), data.y.begin() + half), weak);
  REQUIRE(step);
  Prior handed{.mean = step->coefficients, .rows = weak.rows, .shape = step->shape, .rate = step->rate};
  handed.rows.insert(handed.rows.end(), first.begin(), first.end());
  const auto twice = fit(second, Row(data.y.begin() + half, data.y.end()), handed);
  const auto once = fit(data.x, data.y, weak);
  REQUIRE(twice);
  REQUIRE(once);
  for (std::size_t j = 0; j < 3; ++j) {
    CHECK_THAT(twice->coefficients[j], WithinAbs(once->coefficients[j], 1e-12));
    CHECK_THAT(twice->standard_error(j), WithinAbs(once->standard_error(j), 1e-12));
  }
  CHECK_THAT(twice->shape, WithinAbs(once->shape, 1e-12));
  CHECK_THAT(twice->rate, WithinAbs(once->rate, 1e-12));
}

TEST_CASE("what observations and beliefs leave undetermined has no answer", "[resale]") {
  CHECK_FALSE(fit({{1, 2}, {1, 2}, {1, 2}}, {1, 2, 3}));  // the columns cannot be told apart
  CHECK_FALSE(fit({{1, 0}, {1, 0}, {1, 0}}, {1, 2, 3}));  // nothing about the second
  CHECK_FALSE(fit({{1, 2}, {1, 3}}, {1, 2}));             // nothing left for the spread
  CHECK(fit({{1, 2}, {1, 3}, {1, 4}}, {1, 2, 4}));
  CHECK(fit({{1, 2}}, {1}, Prior{.mean = {0, 1}, .rows = {{0, 1}}, .shape = 1, .rate = 1}));
}

TEST_CASE("leverages add up to the number of columns when nothing is believed", "[resale]") {
  std::mt19937 random(3);
  const Data data = scattered(random, 9);
  const auto result = fit(data.x, data.y);
  REQUIRE(result);
  double sum = 0;
  for (const double leverage : result->leverage) sum += leverage;
  CHECK_THAT(sum, WithinAbs(3, 1e-12));
}

#include "resale/student.h"

#include <catch2/catch.hpp>
#include <cmath>

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using nonrunner::resale::Student;

TEST_CASE("a quantile of Student's t is undone by its chance, near the ends too", "[resale]") {
  for (const double df : {1.5, 3.0, 6.0, 13.0, 200.0}) {
    const Student t{3700, 90, df};
    for (const double chance : {1e-6, 0.05, 0.5, 0.8, 1 - 1e-6})
      CHECK_THAT(t.cdf(t.quantile(chance)), WithinAbs(chance, 1e-12));
  }
}

TEST_CASE("cut off at zero, the chances are those of what is left", "[resale]") {
  const Student t{100, 120, 4};
  REQUIRE(t.cdf(0) > 0.1);
  for (const double chance : {1e-9, 0.01, 0.3, 0.5, 0.9, 1 - 1e-9}) {
    const double x = t.quantile_above_zero(chance);
    CHECK(x > 0);
    CHECK_THAT((t.cdf(x) - t.cdf(0)) / (1 - t.cdf(0)), WithinAbs(chance, 1e-12));
  }
}

TEST_CASE("the mean above zero is what adding up its quantiles gives", "[resale]") {
  for (const Student t :
       {Student{100, 120, 4}, Student{3700, 90, 6}, Student{50, 80, 3}, Student{-20, 60, 5}}) {
    // Midpoints on a scale that crowds towards 1, where the tail is: u = 1 - v^2.
    double sum = 0;
    constexpr int steps = 10'000;
    for (int i = 0; i < steps; ++i) {
      const double v = (i + 0.5) / steps;
      sum += t.quantile_above_zero(1 - v * v) * 2 * v / steps;
    }
    CHECK_THAT(t.mean_above_zero(), WithinRel(sum, 2e-5));
  }
  CHECK(std::isinf(Student{100, 120, 1}.mean_above_zero()));
  CHECK(Student{100, 120, 0.5}.mean_above_zero() > 1e300);
}

TEST_CASE("cutting off nothing to speak of changes nothing", "[resale]") {
  const Student t{3700, 1, 40};
  CHECK_THAT(t.mean_above_zero(), WithinAbs(3700, 1e-9));
  CHECK_THAT(t.quantile_above_zero(0.05), WithinAbs(t.quantile(0.05), 1e-9));
}

// Three-point estimates against published tables. Where a source gives rounded figures the tolerance is half
// of its last digit; where the inputs fix the value exactly it covers the order of sums only.
#include "chance/three_point.h"

#include <boost/math/distributions/normal.hpp>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace nonrunner;
using Catch::Matchers::WithinAbs;

namespace {
// The classic variance ((b - a)/6)^2 of Malcolm and others 1959, which the published tables use; the
// beta-PERT's own variance differs from it.
double classic_variance(const ThreePoint& p) { return (p.high - p.low) * (p.high - p.low) / 36; }
}  // namespace

// B. W. Taylor III, Introduction to Management Science, PERT example: seven activities in weeks, critical
// path 1-3-5-7 of 24 weeks with variance 5, chance of at most 28 weeks .9633 by the normal table (exactly
// .963181).
TEST_CASE("the seven activities have the published means, and the path its published chance",
          "[chance][outside]") {
  const std::vector<ThreePoint> activity = {{5, 8, 17}, {7, 10, 13}, {3, 5, 7}, {1, 3, 5},
                                            {4, 6, 8},  {3, 3, 3},   {3, 4, 5}};
  const std::vector<double> mean = {9, 10, 5, 3, 6, 3, 4};
  for (std::size_t i = 0; i < activity.size(); ++i) CHECK_THAT(activity[i].mean(), WithinAbs(mean[i], 1e-12));
  double path_mean = 0, path_variance = 0;
  for (const std::size_t i : {0u, 2u, 4u, 6u}) {
    path_mean += activity[i].mean();
    path_variance += classic_variance(activity[i]);
  }
  CHECK_THAT(path_mean, WithinAbs(24, 1e-12));
  CHECK_THAT(path_variance, WithinAbs(5, 1e-12));
  const boost::math::normal standard;
  CHECK_THAT(cdf(standard, (28 - path_mean) / std::sqrt(path_variance)),
             WithinAbs(0.9631808649398487, 1e-12));
}

// A university lecture on PERT networks: six nodes, ten arcs; means printed with two decimals, 20.83 for the
// project.
TEST_CASE("the ten-arc network has the published means and project length", "[chance][outside]") {
  const std::vector<ThreePoint> arc = {{2, 5, 8},  {1, 4, 7}, {0, 0, 0},  {2, 4, 6}, {5, 7, 12},
                                       {3, 5, 10}, {3, 6, 9}, {4, 6, 10}, {2, 5, 8}, {2, 4, 6}};
  const std::vector<double> printed = {5, 4, 0, 4, 7.5, 5.5, 6, 6.33, 5, 4};
  for (std::size_t i = 0; i < arc.size(); ++i) CHECK_THAT(arc[i].mean(), WithinAbs(printed[i], 0.005));
  CHECK_THAT(arc[0].mean() + arc[2].mean() + arc[5].mean() + arc[7].mean() + arc[9].mean(),
             WithinAbs(20.83, 0.005));
}

// Computed with a beta distribution to 30 digits; shapes after Herrerias-Velasco, Herrerias-Pleguezuelo and
// van Dorp, European Journal of Operational Research 210 (2011) 448-451. Mean, variance, and the 5, 10, 50,
// 90, 95 % points.
TEST_CASE("beta-PERT moments and quantiles agree with a 30-digit computation", "[chance][outside]") {
  struct Row {
    ThreePoint points;
    double alpha, beta, mean, variance, q05, q10, q50, q90, q95;
  };
  const std::vector<Row> rows = {
      {{0.9, 1.1, 1.6},
       2.1428571428571432,
       3.8571428571428568,
       1.15,
       0.016071428571428577,
       0.9630158653357429,
       0.9904353459302796,
       1.1382588601420245,
       1.3272702746347873,
       1.3773921493495627},
      {{70, 90, 140},
       2.142857142857143,
       3.857142857142857,
       95.0,
       160.71428571428572,
       76.30158653357428,
       79.04353459302796,
       93.82588601420245,
       112.72702746347872,
       117.73921493495625},
      {{5, 7, 11},
       2.333333333333333,
       3.6666666666666665,
       7.333333333333333,
       1.222222222222222,
       5.656994351989966,
       5.918166162058876,
       7.254875042024726,
       8.866740185723483,
       9.279724319279286},
      {{0, 0, 6},
       1.0,
       5.0,
       1.0,
       0.7142857142857143,
       0.061237309878068975,
       0.12510982583413927,
       0.7766966202232551,
       2.2142559331188405,
       2.704318370081646},
      {{3200, 3600, 3900},
       3.2857142857142856,
       2.7142857142857144,
       3583.3333333333335,
       17341.26984126984,
       3360.1674221431813,
       3403.989145560913,
       3587.2667932357003,
       3756.7541545911326,
       3792.9586598436035},
  };
  for (const Row& row : rows) {
    const double scale = row.points.high;
    CHECK_THAT(row.points.alpha(), WithinAbs(row.alpha, 1e-14));
    CHECK_THAT(row.points.beta(), WithinAbs(row.beta, 1e-14));
    CHECK_THAT(row.points.mean(), WithinAbs(row.mean, 1e-14 * scale));
    CHECK_THAT(row.points.variance(), WithinAbs(row.variance, 1e-13 * scale * scale));
    CHECK_THAT(row.points.quantile(0.05), WithinAbs(row.q05, 1e-12 * scale));
    CHECK_THAT(row.points.quantile(0.10), WithinAbs(row.q10, 1e-12 * scale));
    CHECK_THAT(row.points.quantile(0.50), WithinAbs(row.q50, 1e-12 * scale));
    CHECK_THAT(row.points.quantile(0.90), WithinAbs(row.q90, 1e-12 * scale));
    CHECK_THAT(row.points.quantile(0.95), WithinAbs(row.q95, 1e-12 * scale));
  }
  const ThreePoint constant = ThreePoint::constant(4);
  CHECK(constant.mean() == 4);
  CHECK(constant.variance() == 0);
  CHECK(constant.quantile(0.3) == 4);
}

// Student's t distribution moved and scaled: what a fitted line says about one more observation.
//
// Density at x: f((x - location) / scale) / scale, with f Student's t with `df` degrees of freedom (any
// positive number). Source: A. Gelman and others, Bayesian Data Analysis, 3rd ed. 2013, appendix A (from
// memory). Computed by Boost.Math.
//
// A price is not below zero: the functions `above_zero` are those of the distribution cut off there and
// scaled to 1. Known to be right by quantile(cdf(x)) = x, and the mean by adding up quantiles
// (tests/resale/student.cpp).
#pragma once

namespace nonrunner::resale {

struct Student {
  double location = 0;
  double scale = 1;  // above zero
  double df = 1;     // above zero

  double cdf(double x) const;
  double quantile(double chance) const;  // chance in (0, 1)

  double quantile_above_zero(double chance) const;  // chance in (0, 1)
  // Infinite where df <= 1, since the mean does not exist there.
  double mean_above_zero() const;
};

}  // namespace nonrunner::resale

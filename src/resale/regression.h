// Bayesian linear regression with the conjugate normal-inverse-gamma prior.
//
//   y_i | b, s^2 ~ N(x_i b, s^2), independent       s^2 ~ inverse gamma(shape, rate)
//   row b | s^2 ~ N(row mean, s^2) for every row of belief: the prior precision of b is L0 = sum of row' row
// After n observations:
//   L = X'X + L0     b_n = L^-1 (X'y + L0 mean)     shape_n = shape + (n + rank L0 - columns) / 2
//   rate_n = rate + (|y - X b_n|^2 + |rows (mean - b_n)|^2) / 2
// One more observation at x: Student's t with 2 shape_n degrees of freedom, location x b_n, scale
//   sqrt(rate_n / shape_n (1 + x L^-1 x')).
// Where there is no belief about a direction the prior is flat there; with none at all and shape = rate = 0
// all of it is ordinary least squares, and rate_n / shape_n its residual variance. `rank L0 - columns` is
// zero for a proper prior.
//
// Source: K. P. Murphy, Conjugate Bayesian analysis of the Gaussian distribution, 2007; C. M. Bishop,
// Pattern Recognition and Machine Learning, 2006, ch. 3 (from memory); the flat case: A. Gelman and others,
// Bayesian Data Analysis, 3rd ed. 2013, ch. 14 (from memory).
//
// Method: QR with column pivoting of the rows of X and of belief, one below the other, columns scaled to a
// length near 1 (by powers of two: no rounding), residuals once fed back. Known to be right by certified
// regressions and by a published conjugate example (tests/outside/regression.cpp).
#pragma once
#include <optional>
#include <vector>

#include "resale/student.h"

namespace nonrunner::resale {

using Row = std::vector<double>;

struct Prior {
  Row mean;               // as many as columns; empty: zeros
  std::vector<Row> rows;  // empty: flat
  double shape = 0;
  double rate = 0;
};

struct Fit {
  Row coefficients;
  std::vector<Row> inverse;  // L^-1
  double shape = 0;          // shape_n and rate_n
  double rate = 0;
  double residual_ss = 0;  // of the observations alone
  // For each observation: x_i L^-1 x_i', and its distance from what all the others together predict, in units
  // of the scale of that prediction: Student's t with 2 shape_n - 1 degrees of freedom, with a flat prior the
  // externally studentised residual. Not a number where the others do not determine a prediction.
  Row leverage;
  Row studentised;

  double df() const { return 2 * shape; }
  double residual_sd() const;
  double standard_error(std::size_t column) const;  // the scale of the coefficient's own Student distribution
};

// Absent where observations and beliefs together leave a direction undetermined or no degree of freedom for
// the spread. All rows have the same number of columns, at least one.
std::optional<Fit> fit(const std::vector<Row>& x, const Row& y, const Prior& = {});

Student predict(const Fit&, const Row& x);

}  // namespace nonrunner::resale

// An uncertain amount stated by three points: lowest, most likely, highest. As a distribution it is the
// beta-PERT:
//   X = low + (high - low) B,  B ~ beta(alpha, beta),  alpha = 1 + 4(m - a)/(b - a),  beta = 1 + 4(b - m)/(b
//   - a) mean (a + 4m + b)/6        variance (mean - a)(b - mean)/7
// low = high is a constant.
//
// Domain: finite, low <= likely <= high; whoever makes one checks that. Source: D. G. Malcolm and others,
// Operations Research 7 (1959) 646-669 for the mean; R. Herrerias-Velasco and others, European Journal of
// Operational Research 210 (2011) 448-451 for the shapes; the divisor 7 from memory, verified. Known to be
// right by published means and by quantiles computed to 30 digits (tests/outside/three_point.cpp).
#pragma once

namespace nonrunner {

struct ThreePoint {
  double low = 0;
  double likely = 0;
  double high = 0;

  static constexpr ThreePoint constant(double value) { return {value, value, value}; }

  constexpr bool is_constant() const { return low == high; }
  constexpr double mean() const { return is_constant() ? low : (low + 4 * likely + high) / 6; }
  constexpr double variance() const { return is_constant() ? 0 : (mean() - low) * (high - mean()) / 7; }
  double alpha() const { return 1 + 4 * (likely - low) / (high - low); }  // not of a constant
  double beta() const { return 1 + 4 * (high - likely) / (high - low); }  // not of a constant
  // The value that is not exceeded with this chance, 0 <= chance <= 1; to about 1e-14 of the width
  // (Boost.Math).
  double quantile(double chance) const;

  friend constexpr bool operator==(const ThreePoint&, const ThreePoint&) = default;
};

}  // namespace nonrunner

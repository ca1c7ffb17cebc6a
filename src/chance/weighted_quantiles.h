// A few quantiles of a sample that is asked once: as chance/weighted_sample.h defines them, without putting all
// values in order. The values are counted in cells of equal width; only those of the cells that a quantile stands in are
// put in order (selection by buckets: D. E. Knuth, The Art of Computer Programming 3, 2nd ed. 1998, sections 5.2.5 and
// 5.3.3; from memory). Known to be right by the other one (tests/chance/weighted_quantiles.cpp).
#pragma once
#include <vector>

namespace nonrunner {

// At least one value, all finite; as many weights, not negative and not all zero; 0 <= share <= 1.
std::vector<double> weighted_quantiles(const std::vector<double>& values, const std::vector<double>& weights,
                                       const std::vector<double>& rising_shares);

double weighted_mean(const std::vector<double>& values, const std::vector<double>& weights);

}  // namespace nonrunner

// A sample put in order once, and its quantiles under any weights: the same drawn points serve before and
// after a test, since a test changes how likely each point is, not what it is worth.
//
// The quantile at a share is the smallest value up to which the weights add up to at least that share of
// their total (the inverse of the weighted distribution function), compared with `share_tolerance`: the sum of round
// chances is met, whatever their rounding. Weights are not negative and not all zero.
// All sums run in the order of the values: the same input gives the same figures.
#pragma once
#include <cstdint>
#include <vector>

namespace nonrunner {

constexpr double share_tolerance = 1e-9;

class WeightedSample {
 public:
  explicit WeightedSample(std::vector<double> values);  // at least one value, all finite

  // Every value times `factor`, above zero, and `plus` added: the order stays.
  WeightedSample moved(double factor, double plus) const;

  std::size_t size() const { return values_.size(); }
  // Weights belong to the values in the order in which they were given; none means all alike.
  double quantile(double share, const std::vector<double>& weights = {}) const;
  std::vector<double> quantiles(const std::vector<double>& rising_shares,
                                const std::vector<double>& weights = {}) const;
  double share_below(double value, const std::vector<double>& weights = {}) const;
  std::vector<double> shares_below(const std::vector<double>& rising_values,
                                   const std::vector<double>& weights = {}) const;
  double mean(const std::vector<double>& weights = {}) const;

 private:
  WeightedSample() = default;
  double weight_of(std::size_t place, const std::vector<double>& weights) const {
    return weights.empty() ? 1.0 : weights[order_[place]];
  }
  double total(const std::vector<double>& weights) const;

  std::vector<double> values_;        // rising
  std::vector<std::uint32_t> order_;  // where each stood
};

}  // namespace nonrunner

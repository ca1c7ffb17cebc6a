// How many of some values lie below a bound, asked often: the values stand in cells of equal width, so that
// only one cell is looked through. Exact.
#pragma once
#include <cstdint>
#include <vector>

namespace nonrunner::appraisal {

class Tally {
 public:
  explicit Tally(const std::vector<double>& values);  // at least one
  double share_below(double bound) const;
  double lowest() const { return low_; }
  double highest() const { return high_; }

 private:
  std::size_t cell_of(double value) const;
  double low_ = 0, high_ = 0, per_width_ = 0;
  std::vector<std::uint32_t> begins_;  // of each cell, and the end
  std::vector<double> values_;         // by cell
};

}  // namespace nonrunner::appraisal

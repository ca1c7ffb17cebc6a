// How many of some values lie below a bound, asked often: the values stand in cells of equal width, so that
// only one cell is looked through. Exact. The answer says for which bounds it is the same, so that one near by need
// not be asked again.
#pragma once
#include <cstdint>
#include <vector>

namespace nonrunner::appraisal {

class Tally {
 public:
  explicit Tally(std::vector<double> values);  // at least one
  struct Share {
    double below = 0;
    double from = 0, to = 0;  // the same for every bound above the one, up to the other
  };
  Share share_below(double bound) const;

 private:
  std::size_t cell_of(double value) const;
  double low_ = 0, high_ = 0, per_width_ = 0;
  std::vector<std::uint32_t> begins_;  // of each cell, and the end; empty where there is one
  std::vector<double> values_;         // by cell
};

}  // namespace nonrunner::appraisal

#include "appraisal/tally.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace nonrunner::appraisal {

namespace {
constexpr std::size_t values_in_a_cell = 16;
}

Tally::Tally(std::vector<double> values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  const std::size_t cells = std::max<std::size_t>(values.size() / values_in_a_cell, 1);
  low_ = *low;
  high_ = *high;
  per_width_ = *high > *low ? static_cast<double>(cells) / (*high - *low) : 0;
  if (cells == 1) {
    values_ = std::move(values);
    return;
  }
  values_.resize(values.size());
  begins_.assign(cells + 1, 0);
  for (const double value : values) ++begins_[cell_of(value) + 1];
  for (std::size_t cell = 0; cell < cells; ++cell) begins_[cell + 1] += begins_[cell];
  std::vector<std::uint32_t> next(begins_.begin(), begins_.end() - 1);
  for (const double value : values) values_[next[cell_of(value)]++] = value;
}

// Rises with the value, so what stands in an earlier cell is not larger.
std::size_t Tally::cell_of(double value) const {
  const double at = (value - low_) * per_width_;
  return std::min(static_cast<std::size_t>(std::max(at, 0.0)), begins_.size() - 2);
}

Tally::Share Tally::share_below(double bound) const {
  constexpr double no_bound = std::numeric_limits<double>::infinity();
  if (bound <= low_) return {0, -no_bound, low_};
  if (bound > high_) return {1, high_, no_bound};
  std::size_t begin = 0, end = values_.size();
  if (!begins_.empty()) {
    const std::size_t cell = cell_of(bound);
    begin = begins_[cell];
    end = begins_[cell + 1];
  }
  std::size_t below = begin;
  // Where the cell has nothing on one side of the bound its neighbours are not looked at: then the answer is known for
  // fewer bounds than it holds for.
  Share share{0, std::nextafter(bound, -no_bound), bound};
  double under = -no_bound, over = no_bound;
  for (std::size_t i = begin; i < end; ++i) {
    const double value = values_[i];
    if (value < bound) {
      ++below;
      under = std::max(under, value);
    } else {
      over = std::min(over, value);
    }
  }
  if (under > -no_bound) share.from = under;
  if (over < no_bound) share.to = over;
  share.below = static_cast<double>(below) / static_cast<double>(values_.size());
  return share;
}

}  // namespace nonrunner::appraisal

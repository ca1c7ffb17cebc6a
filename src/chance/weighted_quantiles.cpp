#include "chance/weighted_quantiles.h"

#include <algorithm>
#include <cstdint>
#include <limits>
#include <map>

#include "chance/weighted_sample.h"

namespace nonrunner {

namespace {

constexpr std::size_t values_in_a_cell = 32, cells_most = 4096;

struct Weighed {
  double value, weight;
};

class Cells {
 public:
  Cells(const std::vector<double>& values, const std::vector<double>& weights)
      : values_(values), weights_(weights) {
    double high = -std::numeric_limits<double>::infinity();
    low_ = -high;
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (weights[i] == 0) continue;  // never drawn, so it is no quantile
      low_ = std::min(low_, values[i]);
      high = std::max(high, values[i]);
    }
    sums_.assign(std::clamp<std::size_t>(values.size() / values_in_a_cell, 1, cells_most), 0.0);
    per_width_ = high > low_ ? static_cast<double>(sums_.size()) / (high - low_) : 0;
    for (std::size_t i = 0; i < values.size(); ++i)
      if (weights[i] != 0) sums_[cell_of(values[i])] += weights[i];
    for (const double sum : sums_) total_ += sum;
  }

  double total() const { return total_; }

  // The cell in which so much weight is reached, and what stands before it.
  struct Place {
    std::size_t cell = 0;
    double before = 0;
  };
  Place place_of(double target) const {
    Place place;
    std::size_t last = 0;
    double sum = 0;
    for (std::size_t cell = 0; cell < sums_.size(); ++cell) {
      if (sums_[cell] == 0) continue;
      last = cell;
      place = {cell, sum};
      sum += sums_[cell];
      if (sum >= target) return place;
    }
    place.cell = last;
    return place;
  }

  void put_in_order(std::map<std::size_t, std::vector<Weighed>>& wanted) const {
    std::vector<std::vector<Weighed>*> room(sums_.size(), nullptr);
    for (auto& [cell, values] : wanted) room[cell] = &values;
    for (std::size_t i = 0; i < values_.size(); ++i)
      if (weights_[i] != 0)
        if (auto* into = room[cell_of(values_[i])]) into->push_back({values_[i] + 0.0, weights_[i]});
    for (auto& [cell, values] : wanted) std::ranges::stable_sort(values, {}, &Weighed::value);
  }

 private:
  std::size_t cell_of(double value) const {
    return std::min(static_cast<std::size_t>((value - low_) * per_width_), sums_.size() - 1);
  }

  const std::vector<double>&values_, &weights_;
  double low_ = 0, per_width_ = 0, total_ = 0;
  std::vector<double> sums_;  // the weight in each
};

}  // namespace

std::vector<double> weighted_quantiles(const std::vector<double>& values, const std::vector<double>& weights,
                                       const std::vector<double>& rising_shares) {
  const Cells cells(values, weights);
  std::map<std::size_t, std::vector<Weighed>> wanted;
  std::vector<Cells::Place> places;
  for (const double share : rising_shares) {
    places.push_back(cells.place_of((share - share_tolerance) * cells.total()));
    wanted[places.back().cell];
  }
  cells.put_in_order(wanted);
  std::vector<double> found;
  for (std::size_t i = 0; i < rising_shares.size(); ++i) {
    const double target = (rising_shares[i] - share_tolerance) * cells.total();
    const std::vector<Weighed>& in_order = wanted[places[i].cell];
    double sum = places[i].before;
    std::size_t at = 0;
    while (at + 1 < in_order.size() && sum + in_order[at].weight < target) sum += in_order[at++].weight;
    found.push_back(in_order[at].value);
  }
  return found;
}

double weighted_mean(const std::vector<double>& values, const std::vector<double>& weights) {
  double sum = 0, total = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    sum += weights[i] * values[i];
    total += weights[i];
  }
  return sum / total;
}

}  // namespace nonrunner

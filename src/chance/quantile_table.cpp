#include "chance/quantile_table.h"

#include <algorithm>
#include <cmath>

namespace nonrunner {

namespace {

constexpr int steps = 256;  // cells of the unit interval on which the distribution function is added up
constexpr double step = 1.0 / steps;
constexpr int ends = QuantileTable::octaves * QuantileTable::cells + 1;  // of the cells of one half

// The chance at the i-th end of a cell, from the outermost to the middle.
double chance_at(int i) {
  const int octave = i / QuantileTable::cells, cell = i % QuantileTable::cells;
  return std::ldexp(1.0 + static_cast<double>(cell) / QuantileTable::cells,
                    octave - QuantileTable::octaves - 1);
}

// log(k / 512) for k = 1 .. 512
const std::array<double, 2 * steps + 1>& logarithms() {
  static const auto all = [] {
    std::array<double, 2 * steps + 1> made{};
    for (int k = 1; k <= 2 * steps; ++k)
      made[static_cast<std::size_t>(k)] = std::log(static_cast<double>(k) / (2 * steps));
    return made;
  }();
  return all;
}

// beta(a, b) with a + b = 6, seen from zero.
class Beta {
 public:
  Beta(double a, double b)
      : a_(a), b_(b), scale_(120.0 / (std::tgamma(a) * std::tgamma(b))) {}  // 1 / B(a, b)

  // Near zero F(x) = scale x^a (1/a - (b - 1) x/(a + 1) + (b - 1)(b - 2) x^2/(2(a + 2)) - ...).
  double up_to(double x) const {
    return scale_ * std::pow(x, a_) *
           (1 / a_ - (b_ - 1) * x / (a_ + 1) + (b_ - 1) * (b_ - 2) * x * x / (2 * (a_ + 2)));
  }
  double quantile_near_zero(double chance) const {
    const double leading = std::pow(chance * a_ / scale_, 1 / a_);
    const double x = leading * (1 + (b_ - 1) * leading / (a_ + 1));
    const double reached = up_to(x);
    return x - (reached - chance) * x / (a_ * reached);  // one step of Newton, the slope by the leading term
  }

  // The quantiles at the ends of the cells of one half. The density is added up by Simpson's rule from its
  // leading terms at zero, and turned round as if it were straight within each step.
  void quantiles(double* into) const {
    int k = 0;
    double at_start = 0, at_end = up_to(step), dense_start = density(0), dense_end = density(2);
    for (int i = 0; i < ends; ++i) {
      const double chance = chance_at(i);
      while (at_end < chance && k + 1 < steps) {
        ++k;
        at_start = at_end;
        dense_start = dense_end;
        dense_end = density(2 * k + 2);
        at_end += step / 6 * (dense_start + 4 * density(2 * k + 1) + dense_end);
      }
      if (k == 0) {
        into[i] = quantile_near_zero(chance);
        continue;
      }
      const double straight = (dense_start + dense_end) / 2;
      const double wanted = (chance - at_start) / (at_end - at_start) * straight;
      const double root =
          std::sqrt(std::fmax(0.0, dense_start * dense_start + 2 * (dense_end - dense_start) * wanted));
      into[i] = step * (k + 2 * wanted / (dense_start + root));
    }
  }

 private:
  double density(int k) const {  // at k / 512
    const auto& logs = logarithms();
    if (k == 0) return a_ == 1 ? scale_ : 0.0;
    if (k == 2 * steps) return b_ == 1 ? scale_ : 0.0;
    return scale_ * std::exp((a_ - 1) * logs[static_cast<std::size_t>(k)] +
                             (b_ - 1) * logs[static_cast<std::size_t>(2 * steps - k)]);
  }

  double a_, b_, scale_;
};

}  // namespace

void QuantileTable::set(const std::array<double, 2 * half>& units) {
  for (std::size_t i = 0; i < units.size(); ++i) {
    const bool is_middle = i + 1 == half || i + 1 == 2 * half;
    nodes_[i] = {static_cast<float>(units[i]),
                 is_middle ? 0.0f : static_cast<float>((units[i + 1] - units[i]) * 0x1p-18)};
  }
}

// Two loops over a part that stays in the cache: the first can be done on several chances at a time by any
// processor.
void QuantileTable::add_units(const std::uint32_t* u, std::uint32_t start, std::size_t n, double weight,
                              double* into) const {
  constexpr std::size_t part_most = 256;
  std::array<std::int32_t, part_most> node;
  std::array<float, part_most> within;
  for (std::size_t first = 0; first < n; first += part_most) {
    const std::size_t part = std::min(part_most, n - first);
    std::int32_t any_tail = 0;
    for (std::size_t k = 0; k < part; ++k) {
      const auto here = static_cast<std::int32_t>(u[first + k] ^ start);
      const std::int32_t upper = here >> 31;
      const std::int32_t from_end = here ^ upper;
      const auto bits = std::bit_cast<std::uint32_t>(static_cast<float>(from_end));
      const std::int32_t at = static_cast<std::int32_t>(bits >> 18) - first_node;
      const std::int32_t tail = at >> 31;
      any_tail |= tail;
      node[k] = (at & ~tail) + (upper & half);
      within[k] = static_cast<float>(static_cast<std::int32_t>(bits & 0x3ffff));
    }
    if (any_tail == 0) {
      for (std::size_t k = 0; k < part; ++k) {
        const Node& cell = nodes_[static_cast<std::size_t>(node[k])];
        into[first + k] += weight * static_cast<double>(cell.value + cell.rise * within[k]);
      }
    } else {
      for (std::size_t k = 0; k < part; ++k)
        into[first + k] += weight * static_cast<double>(unit(u[first + k] ^ start));
    }
  }
}

QuantileTable::QuantileTable(const ThreePoint& points) : low_(points.low), width_(points.high - points.low) {
  const Beta from_low(points.alpha(), points.beta()), from_high(points.beta(), points.alpha());
  std::array<double, 2 * half> units{};
  from_low.quantiles(units.data());
  from_high.quantiles(units.data() + half);
  for (std::size_t i = half; i < units.size(); ++i) units[i] = 1 - units[i];
  set(units);
  tail_ = [from_low, from_high](std::uint32_t from_end, bool upper) {
    const double chance = (from_end + 0.5) * 0x1p-32;
    return static_cast<float>(upper ? 1 - from_high.quantile_near_zero(chance)
                                    : from_low.quantile_near_zero(chance));
  };
}

QuantileTable::QuantileTable(const std::function<double(double)>& quantile) {
  std::array<double, 2 * half> units{};
  for (int i = 0; i < ends; ++i) {
    units[static_cast<std::size_t>(i)] = quantile(chance_at(i));
    units[static_cast<std::size_t>(half + i)] = quantile(1 - chance_at(i));
  }
  low_ = units[0];
  width_ = units[half] - units[0];
  for (double& unit : units) unit = (unit - low_) / width_;
  set(units);
  tail_ = [quantile, low = low_, width = width_](std::uint32_t from_end, bool upper) {
    const double chance = (from_end + 0.5) * 0x1p-32;
    return static_cast<float>((quantile(upper ? 1 - chance : chance) - low) / width);
  };
}

}  // namespace nonrunner

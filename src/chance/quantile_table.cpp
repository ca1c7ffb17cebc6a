#include "chance/quantile_table.h"

#include <cmath>

namespace nonrunner {

namespace {

constexpr int steps = 256;  // cells of the unit interval on which the distribution function is added up
constexpr double width = 1.0 / steps;
constexpr double chance_of_tail = 0x1p-17;

double chance_of_node(int octave, int cell) {
  return std::ldexp(1.0 + static_cast<double>(cell) / QuantileTable::cells, -octave - 2);
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

// The quantiles of beta(a, b), a + b = 6, for the chances of the nodes of one half, from the outermost
// inwards. The density is added up by Simpson's rule from its leading terms at zero, and turned round as if
// it were straight within each cell. Returns the outermost quantile.
double half_of_beta(double a, double b, double* nodes) {
  const auto& logs = logarithms();
  const double scale = 120.0 / (std::tgamma(a) * std::tgamma(b));  // 1 / B(a, b), for a + b = 6
  const auto density = [&](int k) {
    if (k == 0) return a == 1 ? scale : 0.0;
    if (k == 2 * steps) return b == 1 ? scale : 0.0;
    return scale * std::exp((a - 1) * logs[static_cast<std::size_t>(k)] +
                            (b - 1) * logs[static_cast<std::size_t>(2 * steps - k)]);
  };
  // Near zero F(x) = scale x^a (1/a - (b - 1) x/(a + 1) + (b - 1)(b - 2) x^2/(2(a + 2)) - ...).
  const auto first = [&](double x) {
    return scale * std::pow(x, a) *
           (1 / a - (b - 1) * x / (a + 1) + (b - 1) * (b - 2) * x * x / (2 * (a + 2)));
  };
  const auto near_zero = [&](double chance) {
    const double leading = std::pow(chance * a / scale, 1 / a);
    double x = leading * (1 + (b - 1) * leading / (a + 1));
    const double reached = first(x);
    x -= (reached - chance) * x / (a * reached);  // one step of Newton, the slope by the leading term
    return x;
  };
  int k = 0;
  double at_start = 0, at_end = first(width);
  double dense_start = density(0), dense_end = density(2);
  double outermost = 0;
  for (int octave = QuantileTable::octaves - 1; octave >= 0; --octave) {
    for (int cell = 0; cell <= QuantileTable::cells; ++cell) {
      const double chance = chance_of_node(octave, cell);
      while (at_end < chance && k + 1 < steps) {
        ++k;
        at_start = at_end;
        dense_start = dense_end;
        dense_end = density(2 * k + 2);
        at_end += width / 6 * (dense_start + 4 * density(2 * k + 1) + dense_end);
      }
      double x = 0;
      if (k == 0) {
        x = near_zero(chance);
      } else {
        const double straight = width * (dense_start + dense_end) / 2;
        const double wanted = (chance - at_start) / (at_end - at_start) * straight / width;
        const double rise = dense_end - dense_start;
        const double root = std::sqrt(std::fmax(0.0, dense_start * dense_start + 2 * rise * wanted));
        x = width * (k + 2 * wanted / (dense_start + root));
      }
      nodes[octave * (QuantileTable::cells + 1) + cell] = x;
      if (octave == QuantileTable::octaves - 1 && cell == 0) outermost = x;
    }
  }
  return outermost;
}

}  // namespace

QuantileTable::QuantileTable(const ThreePoint& points) {
  constexpr std::size_t half = octaves * (cells + 1);
  const double a = points.alpha(), b = points.beta(), low = points.low, high = points.high;
  const double range = high - low;
  const double lowest = half_of_beta(a, b, nodes_.data());
  const double highest = half_of_beta(b, a, nodes_.data() + half);
  for (std::size_t i = 0; i < half; ++i) nodes_[i] = low + range * nodes_[i];
  for (std::size_t i = half; i < nodes_.size(); ++i) nodes_[i] = high - range * nodes_[i];
  tail_ = [=](std::uint32_t from_end, bool upper) {
    const double share = (from_end + 0.5) * 0x1p-32 / chance_of_tail;  // the leading term rules out here
    return upper ? high - range * highest * std::pow(share, 1 / b)
                 : low + range * lowest * std::pow(share, 1 / a);
  };
}

QuantileTable::QuantileTable(const std::function<double(double)>& quantile) {
  std::size_t at = 0;
  for (const bool upper : {false, true})
    for (int octave = 0; octave < octaves; ++octave)
      for (int cell = 0; cell <= cells; ++cell) {
        const double chance = chance_of_node(octave, cell);
        nodes_[at++] = quantile(upper ? 1 - chance : chance);
      }
  tail_ = [quantile](std::uint32_t from_end, bool upper) {
    const double chance = (from_end + 0.5) * 0x1p-32;
    return quantile(upper ? 1 - chance : chance);
  };
}

}  // namespace nonrunner

// The quantile function of one distribution as a table, for drawing many values quickly.
//
// The chance is a fraction of 2^32. Each half of the distribution has 16 octaves of the chance, counted from
// the middle outwards, of 32 cells each, with straight lines between their ends: the cells become finer where
// the quantile function becomes steep. Beyond the last octave (chances below 2^-17 and above 1 - 2^-17) the
// tail function answers.
//
// Error of a table of three points: at most 1e-4 of the width high - low at any chance (measured over all
// shapes against Boost.Math in tests/chance/quantile_table.cpp).
#pragma once
#include <array>
#include <bit>
#include <cstdint>
#include <functional>

#include "chance/three_point.h"

namespace nonrunner {

class QuantileTable {
 public:
  static constexpr int octaves = 16;
  static constexpr int cells = 32;

  // Three points that are not constant.
  explicit QuantileTable(const ThreePoint&);
  // Any distribution by its quantile function, for chances inside (0, 1); asked 1,056 times, and for the
  // tails.
  explicit QuantileTable(const std::function<double(double)>& quantile);

  // The value at chance (u + 1/2) / 2^32, up to the error named above.
  double at(std::uint32_t u) const {
    const bool upper = u >> 31;
    const std::uint32_t from_end = upper ? ~u : u;
    const int zeros = std::countl_zero(from_end);
    if (zeros > octaves) return tail_(from_end, upper);
    const std::uint32_t below_leading_one = from_end << (zeros + 1);
    const std::size_t cell =
        static_cast<std::size_t>(upper * octaves + zeros - 1) * (cells + 1) + (below_leading_one >> 27);
    const double within =
        static_cast<double>(static_cast<std::int32_t>((below_leading_one << 5) >> 1)) * 0x1p-31;
    return nodes_[cell] + (nodes_[cell + 1] - nodes_[cell]) * within;
  }

 private:
  std::array<double, 2 * octaves*(cells + 1)> nodes_{};
  std::function<double(std::uint32_t from_end, bool upper)> tail_;
};

}  // namespace nonrunner

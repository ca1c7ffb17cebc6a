// The quantile function of one distribution as a table, for drawing many values quickly.
//
// The chance is a fraction of 2^32. Each half of the distribution has 11 octaves of the chance, counted from
// the middle outwards, of 32 cells each, with straight lines between their ends: the cells become finer where
// the quantile function becomes steep. An octave and its cell are the exponent and the first bits of the
// chance written as a float, so they are found without a search. Beyond the last octave (chances below 2^-12
// and above 1 - 2^-12) the tail function answers.
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
  static constexpr int octaves = 11;
  static constexpr int cells = 32;

  // Three points that are not constant.
  explicit QuantileTable(const ThreePoint&);
  // Any distribution by its quantile function, for chances inside (0, 1); asked some 700 times, and for the
  // tails.
  explicit QuantileTable(const std::function<double(double)>& quantile);

  // The value at chance (u + 1/2) / 2^32 is low() + width() x unit(u), up to the error named above.
  double at(std::uint32_t u) const { return low_ + width_ * static_cast<double>(unit(u)); }
  // Adds weight x unit(u[i] ^ start) to into[i], for i < n: the same as one by one, several at a time.
  void add_units(const std::uint32_t* u, std::uint32_t start, std::size_t n, double weight,
                 double* into) const;
  double low() const { return low_; }
  double width() const { return width_; }
  float unit(std::uint32_t u) const {
    const std::int32_t upper = static_cast<std::int32_t>(u) >> 31;  // all bits set in the upper half
    const std::int32_t from_end = static_cast<std::int32_t>(u) ^ upper;
    const auto bits = std::bit_cast<std::uint32_t>(static_cast<float>(from_end));
    const std::int32_t node = static_cast<std::int32_t>(bits >> 18) - first_node;
    if (node < 0) [[unlikely]]
      return tail_(static_cast<std::uint32_t>(from_end), upper != 0);
    const Node& cell = nodes_[static_cast<std::size_t>(node + (upper & half))];
    return cell.value + cell.rise * static_cast<float>(static_cast<std::int32_t>(bits & 0x3ffff));
  }

 private:
  struct Node {
    float value = 0;
    float rise = 0;  // to the next one, for each of the 2^18 steps between
  };
  static constexpr std::int32_t first_node = (127 + 31 - octaves) << 5;
  static constexpr std::int32_t half =
      octaves * cells + 1;  // and the middle itself, for chances that round up to it

  // `units`: at the ends of the cells from the outermost to the middle, then the same from the other end.
  void set(const std::array<double, 2 * half>& units);

  double low_ = 0, width_ = 1;
  std::array<Node, 2 * half> nodes_{};
  std::function<float(std::uint32_t from_end, bool upper)> tail_;
};

}  // namespace nonrunner

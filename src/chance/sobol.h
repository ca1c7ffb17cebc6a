// A randomised Sobol sequence: points that fill the unit cube more evenly than chance does.
//
// The sequence is Boost.Random's (direction numbers of S. Joe and F. Y. Kuo, 3,667 dimensions), with the
// point zero that it leaves out put first, and each coordinate shifted digitally (exclusive or with fixed
// random bits, from std::mt19937_64, whose output the language fixes). So each coordinate alone is uniform,
// whole powers of two of points stay balanced, and the same seed gives the same points on every machine.
//
// Coordinates are fractions of 2^32. At most 2^32 points. Known to be right by tests/chance/sobol.cpp.
#pragma once
#include <cstdint>
#include <memory>
#include <vector>

namespace nonrunner {

class SobolStream {
 public:
  static constexpr std::size_t dimensions_max = 3667;
  static constexpr std::uint64_t seed_default = 20130614;
  static constexpr std::size_t block_size = 2048;  // a power of two

  // 1 <= dimensions <= dimensions_max
  explicit SobolStream(std::size_t dimensions, std::uint64_t seed = seed_default);
  ~SobolStream();
  SobolStream(const SobolStream&) = delete;
  SobolStream& operator=(const SobolStream&) = delete;

  // Goes to block `number`: the points number * block_size and those that follow.
  void go_to(std::size_t number);
  // Coordinate d of the i-th point of the block is of(d)[i]. Valid until the stream goes on.
  struct Coordinate {
    const std::uint32_t* pattern;
    std::uint32_t start;
    std::uint32_t operator[](std::size_t i) const { return pattern[i] ^ start; }
  };
  Coordinate of(std::size_t d) const { return {&pattern_[d * block_size], start_[d]}; }

 private:
  struct Engine;
  std::unique_ptr<Engine> engine_;
  void point(std::size_t number, std::vector<std::uint32_t>& into);
  std::vector<std::uint32_t> pattern_;  // block 0, not shifted
  std::vector<std::uint32_t> shift_, start_;
};

}  // namespace nonrunner

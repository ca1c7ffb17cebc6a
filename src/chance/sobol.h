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

  // The points number * block_size and those that follow: coordinate d of the i-th at into[d * block_size +
  // i].
  void block(std::size_t number, std::vector<std::uint32_t>& into);

 private:
  struct Engine;
  std::unique_ptr<Engine> engine_;
  std::vector<std::uint32_t> first_;  // block 0, shifted
};

}  // namespace nonrunner

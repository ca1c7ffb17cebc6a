#include "chance/sobol.h"

#include <boost/random/sobol.hpp>
#include <random>

namespace nonrunner {

struct SobolStream::Engine {
  boost::random::sobol_engine<std::uint32_t, 32> sequence;
};

// A point is the exclusive or of direction numbers, one for each bit of the Gray code of its place, and the
// Gray code of a + b is that of a exclusive or that of b where a is a multiple of a power of two that is
// above b. So the points from a power of two on repeat those before it, each exclusive or the point at the
// power; and every block repeats the first.
SobolStream::SobolStream(std::size_t dimensions, std::uint64_t seed)
    : engine_(new Engine{boost::random::sobol_engine<std::uint32_t, 32>(dimensions)}),
      pattern_(dimensions * block_size, 0),
      shift_(dimensions),
      start_(dimensions) {
  std::mt19937_64 bits(seed);
  for (std::uint32_t& each : shift_) each = static_cast<std::uint32_t>(bits() >> 32);
  std::vector<std::uint32_t> power(dimensions);
  for (std::size_t made = 1; made < block_size; made *= 2) {
    point(made, power);
    for (std::size_t d = 0; d < dimensions; ++d) {
      std::uint32_t* u = &pattern_[d * block_size];
      for (std::size_t i = 0; i < made; ++i) u[made + i] = u[i] ^ power[d];
    }
  }
  go_to(0);
}

SobolStream::~SobolStream() = default;

void SobolStream::point(std::size_t number, std::vector<std::uint32_t>& into) {
  if (number == 0) {
    into.assign(into.size(), 0);
    return;
  }
  engine_->sequence.seed(static_cast<std::uint32_t>(number - 1));  // Boost counts from the point after zero
  for (std::uint32_t& each : into) each = engine_->sequence();
}

void SobolStream::go_to(std::size_t number) {
  point(number * block_size, start_);
  for (std::size_t d = 0; d < start_.size(); ++d) start_[d] ^= shift_[d];
}

}  // namespace nonrunner

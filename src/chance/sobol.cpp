#include "chance/sobol.h"

#include <boost/random/sobol.hpp>
#include <random>

namespace nonrunner {

struct SobolStream::Engine {
  boost::random::sobol_engine<std::uint32_t, 32> sequence;
};

SobolStream::SobolStream(std::size_t dimensions, std::uint64_t seed)
    : engine_(new Engine{boost::random::sobol_engine<std::uint32_t, 32>(dimensions)}),
      first_(dimensions * block_size) {
  std::mt19937_64 bits(seed);
  for (std::size_t d = 0; d < dimensions; ++d)
    first_[d * block_size] = static_cast<std::uint32_t>(bits() >> 32);
  for (std::size_t i = 1; i < block_size; ++i)
    for (std::size_t d = 0; d < dimensions; ++d)
      first_[d * block_size + i] = engine_->sequence() ^ first_[d * block_size];
}

SobolStream::~SobolStream() = default;

// A point is the exclusive or of direction numbers, one for each bit of the Gray code of its place, and the
// Gray code of start + i is that of start exclusive or that of i as long as i stays below the power of two
// that divides start. So each block is the first one exclusive or the point at its start.
void SobolStream::block(std::size_t number, std::vector<std::uint32_t>& into) {
  into = first_;
  if (number == 0) return;
  engine_->sequence.seed(
      static_cast<std::uint32_t>(number * block_size - 1));  // Boost counts from the point after zero
  const std::size_t dimensions = first_.size() / block_size;
  for (std::size_t d = 0; d < dimensions; ++d) {
    const std::uint32_t start = engine_->sequence();
    std::uint32_t* u = &into[d * block_size];
    for (std::size_t i = 0; i < block_size; ++i) u[i] ^= start;
  }
}

}  // namespace nonrunner

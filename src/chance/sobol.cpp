#include "chance/sobol.h"

#include <boost/random/sobol.hpp>
#include <random>

namespace nonrunner {

struct SobolStream::Engine {
  boost::random::sobol_engine<std::uint32_t, 32> sequence;
};

SobolStream::SobolStream(std::size_t dimensions, std::uint64_t seed)
    : engine_(new Engine{boost::random::sobol_engine<std::uint32_t, 32>(dimensions)}), shift_(dimensions) {
  std::mt19937_64 bits(seed);
  for (std::uint32_t& each : shift_) each = static_cast<std::uint32_t>(bits() >> 32);
}

SobolStream::~SobolStream() = default;

void SobolStream::next(std::size_t points, std::vector<std::uint32_t>& into) {
  const std::size_t dimensions = shift_.size();
  into.resize(dimensions * points);
  std::size_t first = 0;
  if (at_start_ && points > 0) {
    for (std::size_t d = 0; d < dimensions; ++d) into[d * points] = shift_[d];
    at_start_ = false;
    first = 1;
  }
  for (std::size_t i = first; i < points; ++i)
    for (std::size_t d = 0; d < dimensions; ++d) into[d * points + i] = engine_->sequence() ^ shift_[d];
}

}  // namespace nonrunner

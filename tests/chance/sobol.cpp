#include "chance/sobol.h"

#include <boost/random/sobol.hpp>
#include <catch2/catch.hpp>
#include <set>

using namespace nonrunner;

TEST_CASE("each coordinate of the Sobol stream puts one point into each of 2^k equal cells", "[chance]") {
  constexpr std::size_t points = 4 * SobolStream::block_size, dimensions = 60;
  SobolStream stream(dimensions);
  std::vector<std::set<std::uint32_t>> cells(dimensions);
  for (std::size_t b = 0; b < 4; ++b) {
    stream.go_to(b);
    for (std::size_t d = 0; d < dimensions; ++d)
      for (std::size_t i = 0; i < SobolStream::block_size; ++i) cells[d].insert(stream.of(d)[i] >> 19);
  }
  for (const auto& each : cells) CHECK(each.size() == points);
}

TEST_CASE("the Sobol stream is Boost's sequence with zero put first, shifted", "[chance]") {
  constexpr std::size_t dimensions = 7, size = SobolStream::block_size;
  SobolStream stream(dimensions);
  boost::random::sobol_engine<std::uint32_t, 32> sequence(dimensions);
  std::vector<std::uint32_t> shift;
  for (std::size_t d = 0; d < dimensions; ++d) shift.push_back(stream.of(d)[0]);
  for (std::size_t n = 1; n < 5 * size; ++n) {
    if (n % size == 0) stream.go_to(n / size);
    for (std::size_t d = 0; d < dimensions; ++d) REQUIRE((stream.of(d)[n % size] ^ shift[d]) == sequence());
  }
}

TEST_CASE("the Sobol stream gives the same points on every machine", "[chance]") {
  SobolStream stream(3);
  // The shift: 20130614 through the 64-bit Mersenne twister of the C++ standard.
  CHECK(stream.of(0)[0] == 313303353u);
  // The second point differs from the first by one half in every coordinate, the third by 3/4, 1/4, 1/4: the
  // first direction numbers, in the order of the Gray code.
  for (std::size_t d = 0; d < 3; ++d) {
    CHECK((stream.of(d)[0] ^ stream.of(d)[1]) == 0x80000000u);
    CHECK((stream.of(d)[0] ^ stream.of(d)[2]) == (d == 0 ? 0xc0000000u : 0x40000000u));
  }
}

TEST_CASE("the mean of a product over a full power of two of points is near its integral", "[chance]") {
  constexpr std::size_t blocks = 32;
  SobolStream stream(5);
  double sum = 0;
  for (std::size_t b = 0; b < blocks; ++b) {
    stream.go_to(b);
    for (std::size_t i = 0; i < SobolStream::block_size; ++i) {
      double product = 1;
      for (std::size_t d = 0; d < 5; ++d) product *= 2 * (stream.of(d)[i] + 0.5) * 0x1p-32;
      sum += product;
    }
  }
  CHECK_THAT(sum / (blocks * SobolStream::block_size),
             Catch::Matchers::WithinAbs(1.0, 2e-4));  // chance alone: 0.007
}

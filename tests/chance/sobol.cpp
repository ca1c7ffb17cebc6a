#include "chance/sobol.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

using namespace nonrunner;

TEST_CASE("each coordinate of the Sobol stream puts one point into each of 2^k equal cells", "[chance]") {
  constexpr std::size_t points = 1024, dimensions = 60;
  SobolStream stream(dimensions);
  std::vector<std::uint32_t> u;
  stream.next(points, u);
  for (std::size_t d = 0; d < dimensions; ++d) {
    std::set<std::uint32_t> cells;
    for (std::size_t i = 0; i < points; ++i) cells.insert(u[d * points + i] >> 22);
    CHECK(cells.size() == points);
  }
}

TEST_CASE("the Sobol stream does not depend on the size of the blocks in which it is taken", "[chance]") {
  SobolStream whole(7), parts(7);
  std::vector<std::uint32_t> all, part;
  whole.next(300, all);
  std::size_t at = 0;
  for (const std::size_t points : {1u, 99u, 200u}) {
    parts.next(points, part);
    for (std::size_t i = 0; i < points; ++i)
      for (std::size_t d = 0; d < 7; ++d) REQUIRE(part[d * points + i] == all[d * 300 + at + i]);
    at += points;
  }
}

TEST_CASE("the Sobol stream gives the same points on every machine", "[chance]") {
  SobolStream stream(3);
  std::vector<std::uint32_t> u;
  stream.next(3, u);
  // The first point is the shift; the second differs from it by half in every coordinate; the third by the
  // known second direction numbers 3/4, 1/4, 1/4 (in the order of the Gray code).
  CHECK((u[0] ^ u[1]) == 0x80000000u);
  CHECK((u[3] ^ u[4]) == 0x80000000u);
  CHECK((u[6] ^ u[7]) == 0x80000000u);
  CHECK((u[0] ^ u[2]) == 0xc0000000u);
  CHECK((u[3] ^ u[5]) == 0x40000000u);
  CHECK((u[6] ^ u[8]) == 0x40000000u);
  // 20130614 through the 64-bit Mersenne twister of the C++ standard.
  CHECK(u[0] == 313303353u);
}

TEST_CASE("the mean of a product over a full power of two of points is near its integral", "[chance]") {
  SobolStream stream(5);
  std::vector<std::uint32_t> u;
  constexpr std::size_t points = 65536;
  stream.next(points, u);
  double sum = 0;
  for (std::size_t i = 0; i < points; ++i) {
    double product = 1;
    for (std::size_t d = 0; d < 5; ++d) product *= 2 * (u[d * points + i] + 0.5) * 0x1p-32;
    sum += product;
  }
  CHECK_THAT(sum / points, Catch::Matchers::WithinAbs(1.0, 2e-4));  // chance alone would give 0.007
}

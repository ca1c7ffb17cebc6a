#include "chance/three_point.h"

#include <catch2/catch.hpp>

using nonrunner::ThreePoint;

TEST_CASE("three points end where they say, at the ends of the chance and beyond", "[chance]") {
  const ThreePoint points{1, 2, 4};
  for (const double chance : {-0.5, 0.0}) CHECK(points.quantile(chance) == 1);
  for (const double chance : {1.0, 1.5}) CHECK(points.quantile(chance) == 4);
  CHECK(ThreePoint{3, 3, 3}.quantile(0.2) == 3);
}

#include "resale/own_amount.h"

#include <catch2/catch.hpp>
#include <cmath>

using namespace nonrunner;
using namespace nonrunner::resale;
using Catch::Matchers::WithinAbs;

TEST_CASE("an own amount has the mean and the variance of prior and own cars together", "[resale]") {
  const OwnPrior prior{{0.9, 1.2, 1.9}, 4};
  const std::vector<double> own = {1.4, 1.6, 1.3};
  const OwnAmount result = own_amount(prior, own, 0, 100);
  CHECK_THAT(result.points.mean(), WithinAbs(result.figures.mean, 1e-12));
  CHECK_THAT(result.points.variance(), WithinAbs(result.figures.sd * result.figures.sd, 1e-12));
  // The shape stays: the likely point lies as far along.
  CHECK_THAT((result.points.likely - result.points.low) / (result.points.high - result.points.low),
             WithinAbs(0.3, 1e-12));
  CHECK(result.points.mean() > prior.points.mean());
}

TEST_CASE("without own cars an own amount is its prior to the digit", "[resale]") {
  const OwnAmount result = own_amount(common_practice::days, {}, 0, 1000);
  CHECK(result.points == ThreePoint{7, 18, 45});
}

TEST_CASE("a constant prior becomes an even spread, and no point leaves what the amount can be", "[resale]") {
  const OwnAmount even = own_amount({ThreePoint::constant(1.2), 2}, {1.0, 1.4}, 0, 100);
  CHECK_THAT(even.points.mean(), WithinAbs(1.2, 1e-12));
  CHECK_THAT(even.points.variance(), WithinAbs(0.02, 1e-12));  // (0 + 0 + 0.04 + 0.04) / 4
  const OwnAmount held = own_amount(common_practice::realised, {1.0, 1.0, 1.0, 1.0, 1.0}, 0, 1);
  CHECK(held.points.high == 1.0);
  CHECK(held.points.low < held.points.likely);
}

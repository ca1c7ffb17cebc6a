// Means and standard deviations against the certified values of the Statistical Reference Datasets (NIST/ITL
// StRD).
#include <catch2/catch.hpp>

#include "resale/own_records.h"

using namespace nonrunner::resale;
using Catch::Matchers::WithinRel;

TEST_CASE("mean and spread have the certified values of Michelson's speeds of light", "[resale][outside]") {
  // NIST/ITL StRD, Michelso.dat: 100 readings, in millions of metres a second.
  const std::vector<double> speeds = {
      299.85, 299.74, 299.90, 300.07, 299.93, 299.85, 299.95, 299.98, 299.98, 299.88, 300.00, 299.98, 299.93,
      299.65, 299.76, 299.81, 300.00, 300.00, 299.96, 299.96, 299.96, 299.94, 299.96, 299.94, 299.88, 299.80,
      299.85, 299.88, 299.90, 299.84, 299.83, 299.79, 299.81, 299.88, 299.88, 299.83, 299.80, 299.79, 299.76,
      299.80, 299.88, 299.88, 299.88, 299.86, 299.72, 299.72, 299.62, 299.86, 299.97, 299.95, 299.88, 299.91,
      299.85, 299.87, 299.84, 299.84, 299.85, 299.84, 299.84, 299.84, 299.89, 299.81, 299.81, 299.82, 299.80,
      299.77, 299.76, 299.74, 299.75, 299.76, 299.91, 299.92, 299.89, 299.86, 299.88, 299.72, 299.84, 299.85,
      299.85, 299.78, 299.89, 299.84, 299.78, 299.81, 299.76, 299.81, 299.79, 299.81, 299.82, 299.85, 299.87,
      299.87, 299.81, 299.74, 299.81, 299.94, 299.95, 299.80, 299.81, 299.87};
  const MeanAndSpread found = mean_and_spread(speeds);
  CHECK(found.number == 100);
  CHECK_THAT(found.mean, WithinRel(299.852400000000, 1e-14));
  CHECK_THAT(*found.sd, WithinRel(0.0790105478190518, 1e-13));
}

TEST_CASE("mean and spread keep their digits where all values are large and alike", "[resale][outside]") {
  // NIST/ITL StRD, NumAcc1.dat: exact in binary.
  const MeanAndSpread one = mean_and_spread({10000001, 10000003, 10000002});
  CHECK(one.mean == 10000002);
  CHECK(*one.sd == 1);
  // NIST/ITL StRD, NumAcc3.dat: 1000000.2 once, then 1000000.1 and 1000000.3 in turn, 500 times each. The
  // decimals are not exact in binary: their rounding alone, 1e-10 of 0.1, decides how many digits of the
  // certified 0.1 are left.
  std::vector<double> values = {1000000.2};
  for (int i = 0; i < 500; ++i) values.push_back(1000000.1), values.push_back(1000000.3);
  const MeanAndSpread three = mean_and_spread(values);
  CHECK(three.number == 1001);
  CHECK_THAT(three.mean, WithinRel(1000000.2, 1e-15));
  CHECK_THAT(*three.sd, WithinRel(0.1, 1e-9));
}

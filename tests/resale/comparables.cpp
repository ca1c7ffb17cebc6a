#include "resale/comparables.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "exact/ends.h"

using namespace nonrunner::resale;
using Catch::Matchers::Equals;
using Catch::Matchers::WithinAbs;
using nonrunner::Refusal;

namespace {

constexpr Kind asking = Kind::asking, sold = Kind::sold;

// Invented data: small hatchbacks.
const std::vector<Comparable> hatchbacks = {{4250, asking, 104000, 2013, 3}, {3650, sold, 121500, 2013, 3},
                                            {4690, asking, 98200, 2014, 4},  {3290, asking, 143000, 2012, 3},
                                            {2600, sold, 151800, 2012, 2},   {4100, sold, 109400, 2014, 3},
                                            {3450, asking, 127300, 2013, 2}, {4150, asking, 117900, 2013, 4},
                                            {3000, sold, 134600, 2011, 3},   {5150, asking, 88700, 2015, 3}};
const Subject hatchback{118400, 2013, 3};
const double realised = (0.90 + 4 * 0.94 + 0.99) / 6;

std::string refusal(const std::vector<Comparable>& rows, const SlopePriors& priors) {
  try {
    sound_value(rows, hatchback, realised, priors);
  } catch (const Refusal& refused) {
    return refused.what();
  }
  return "accepted";
}

}  // namespace

// Worked apart by ordinary least squares, printed to the digits compared here.
TEST_CASE("with nothing believed the hatchbacks give ordinary least squares", "[resale]") {
  const SoundValue value = sound_value(hatchbacks, hatchback, realised, SlopePriors::flat());
  CHECK_THAT(value.realised, WithinAbs(0.941667, 5e-7));
  CHECK_THAT(value.line, WithinAbs(3712.97, 0.005));
  CHECK_THAT(value.odometer.likely, WithinAbs(-0.020717, 5e-7));
  CHECK_THAT(value.year.likely, WithinAbs(202.17, 0.005));
  CHECK_THAT(value.grade.likely, WithinAbs(191.51, 0.005));
  CHECK_THAT(value.residual_sd, WithinAbs(85.94, 0.005));
  CHECK_THAT(value.price.scale, WithinAbs(90.23, 0.005));
  CHECK_THAT(value.price.df, WithinAbs(6, 1e-12));
}

TEST_CASE("the stated weak beliefs move a well told line little", "[resale]") {
  const SoundValue flat = sound_value(hatchbacks, hatchback, realised, SlopePriors::flat());
  const SoundValue weak = sound_value(hatchbacks, hatchback, realised);
  CHECK(std::abs(weak.line - flat.line) < flat.price.scale / 2);
  CHECK_THAT(weak.price.df, WithinAbs(12, 1e-12));  // 3 cars' worth of opinion + 10 - 1 for the level
  CHECK(weak.price.scale > flat.price.scale);       // the opinion says that cars differ more than these do
}

TEST_CASE("one comparable works: its price moved by the beliefs, and a spread that says so", "[resale]") {
  const Comparable one{4000, sold, 108400, 2012, 4};
  const SoundValue value = sound_value({one}, hatchback, realised);
  // 10,000 more on the odometer: -4 %; a year younger: +5 %; a grade worse: -6 %.
  CHECK_THAT(value.line, WithinAbs(4000 * (1 - 0.04 + 0.05 - 0.06), 1e-9));
  CHECK_THAT(value.price.df, WithinAbs(3, 1e-12));
  // Two cars' own scatter (this one's and the subject's) and the three slopes' give-or-take over one unit
  // each.
  CHECK_THAT(value.price.scale,
             WithinAbs(4000 * std::sqrt(2 * 0.07 * 0.07 + 0.04 * 0.04 + 0.05 * 0.05 + 0.06 * 0.06), 1e-9));
  CHECK(pointed_out(value).empty());
}

TEST_CASE("asking prices count at what is got of them, sold ones as they are", "[resale]") {
  const SoundValue value =
      sound_value({{4000, asking, 118400, 2013, 3}, {3600, sold, 118400, 2013, 3}}, hatchback, 0.9);
  CHECK_THAT(value.line, WithinAbs(3600, 1e-9));
  CHECK_THAT(value.rows[0].sold_basis, WithinAbs(3600, 1e-9));
}

TEST_CASE("the currency's unit does not matter", "[resale]") {
  std::vector<Comparable> hundredfold = hatchbacks;
  for (Comparable& each : hundredfold) each.price *= 100;
  const SoundValue one = sound_value(hatchbacks, hatchback, realised),
                   hundred = sound_value(hundredfold, hatchback, realised);
  CHECK_THAT(hundred.price.location, WithinAbs(one.price.location * 100, 1e-6));
  CHECK_THAT(hundred.price.scale, WithinAbs(one.price.scale * 100, 1e-6));
}

TEST_CASE("a price that the others do not explain is pointed out and stays in", "[resale]") {
  std::vector<Comparable> rows = hatchbacks;
  rows[2].price = 6990;  // somebody wrote it wrong
  const SoundValue value = sound_value(rows, hatchback, realised);
  CHECK(value.rows.size() == rows.size());
  REQUIRE(pointed_out(value).size() == 1);
  rows.erase(rows.begin() + 2);
  const SoundValue without = sound_value(rows, hatchback, realised);
  CHECK_THAT(sound_value(rows, {98200, 2014, 4}, realised).line,
             WithinAbs(4582, 15));  // but for the median's own shift
  CHECK(value.line > without.line + 50);
  CHECK_THAT(pointed_out(value)[0],
             Equals("comparable 3: 6582 on the sold basis, the others say 4582; kept, look at it again"));
  CHECK(pointed_out(sound_value(hatchbacks, hatchback, realised)).empty());
}

TEST_CASE("a car far from all others is pointed out for what it alone decides", "[resale]") {
  std::vector<Comparable> rows = hatchbacks;
  rows.push_back({1100, sold, 318000, 2013, 3});
  const std::vector<std::string> lines =
      pointed_out(sound_value(rows, hatchback, realised, SlopePriors::flat()));
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].find("comparable 11: ") == 0);
  CHECK(lines[0].find("it alone decides 9") != std::string::npos);
}

TEST_CASE("too little to go on is refused and says what would help", "[resale]") {
  CHECK_THAT(refusal({}, {}),
             Equals("no comparable, expected at least one; add [[comparable]] rows, or give [value] sound"));
  const std::vector<Comparable> five(hatchbacks.begin(), hatchbacks.begin() + 5);
  CHECK_THAT(refusal(five, SlopePriors::flat()), Equals("5 comparables with flat slopes leave 1 degree of "
                                                        "freedom, expected more than 1; add comparables that "
                                                        "differ, or state beliefs under [value.slopes]"));
  CHECK_THAT(refusal({hatchbacks[0]}, SlopePriors::flat()),
             Equals("1 comparable cannot tell the flat slopes apart; add comparables that differ, or state "
                    "beliefs under "
                    "[value.slopes]"));
  // All of one age and grade, as the subject: these two slopes cannot be told and need not be.
  std::vector<Comparable> alike;
  for (int i = 0; i < 5; ++i) alike.push_back({3000.0 + 37 * i * i, sold, 100000.0 + 9000 * i, 2013, 3});
  CHECK(refusal(alike, SlopePriors::flat()) == "accepted");
  for (Comparable& each : alike) each.price = 3000;
  CHECK_THAT(refusal(alike, SlopePriors::flat()),
             Equals("5 comparables lie on the line exactly and say nothing of the spread; add comparables "
                    "that differ, or "
                    "state beliefs under [value.slopes]"));
}

#include "resale/read.h"

#include <catch2/catch.hpp>

#include "exact/ends.h"
#include "text/toml.h"

using namespace nonrunner;
using Catch::Matchers::Equals;

namespace {

std::optional<resale::Basis> read(const std::string& toml) {
  const Value root = parse_toml(toml, "pip.toml");
  return resale::read_basis(Table(root, "pip.toml", "the file"), Currency{});
}

std::string refusal(const std::string& toml) {
  try {
    read(toml);
  } catch (const Refusal& refused) {
    return refused.what();
  }
  return "accepted";
}

const std::string vehicle = "vehicle = { year = 2012, odometer = 96500 }\n";
const std::string row =
    "[[comparable]]\nprice = 3900\nkind = \"asking\"\nodometer = 88000\nyear = 2012\ngrade = 4\n";

}  // namespace

TEST_CASE("comparables are read with the subject and the stated beliefs", "[resale]") {
  const auto basis =
      read(vehicle + "value = { grade = 2.5, slopes = { year = [0.1, 0.02], grade = \"flat\" } }\n" + row +
           "date = 2025-02-01\nnote = \"seen at the fair\"\n");
  REQUIRE(basis);
  CHECK(basis->subject.year == 2012);
  CHECK(basis->subject.odometer == 96500);
  CHECK(basis->subject.grade == 2.5);
  REQUIRE(basis->comparables.size() == 1);
  CHECK(basis->comparables[0].price == 3900);
  CHECK(basis->comparables[0].kind == resale::Kind::asking);
  CHECK(basis->comparables[0].grade == 4);
  CHECK(basis->comparables[0].name == "comparable at line 3, 3,900.00 at 88000 of 2025-02-01");
  CHECK(read(vehicle + row + "book = 3\n")->comparables[0].name ==
        "comparable 3 of the book, 3,900.00 at 88000");
  CHECK(basis->priors.year->share == 0.1);
  CHECK(basis->priors.year->give_or_take == 0.02);
  CHECK_FALSE(basis->priors.grade);
  CHECK(basis->priors.odometer->share == -0.04);
  CHECK(basis->priors.spread->cars == 3);
  CHECK_FALSE(basis->from_book);
}

TEST_CASE("nothing believed can be said in one word or slope by slope", "[resale]") {
  for (const char* slopes : {"\"flat\"", "{ odometer = \"flat\", year = \"flat\", grade = \"flat\" }"}) {
    const auto basis = read(vehicle + "value = { slopes = " + slopes + " }\n" + row);
    REQUIRE(basis);
    CHECK_FALSE(basis->priors.odometer);
    CHECK_FALSE(basis->priors.year);
    CHECK_FALSE(basis->priors.grade);
    CHECK_FALSE(basis->priors.spread);
  }
}

TEST_CASE("three points for a sound one need no comparables, and the book may supply them", "[resale]") {
  CHECK_FALSE(read("value = { sound = [3200, 3600, 3900] }"));
  const auto basis = read(vehicle + "value = { from = \"book\" }");
  REQUIRE(basis);
  CHECK(basis->from_book);
  CHECK(basis->comparables.empty());
}

TEST_CASE("each mistake about comparables is named where it stands", "[resale]") {
  CHECK_THAT(refusal(vehicle), Equals("pip.toml:1: nothing says what a sound one sells for, expected [value] "
                                      "sound = [low, likely, high] or "
                                      "[[comparable]] rows"));
  CHECK_THAT(
      refusal("value = { sound = 3000 }\n" + row),
      Equals(
          "pip.toml:1: [value] has \"sound\" and the file has [[comparable]] rows, expected one of the two"));
  CHECK_THAT(
      refusal("value = { sound = 3000, from = \"book\" }\n"),
      Equals(
          "pip.toml:1: [value] has \"sound\", so \"from\" for comparables would do nothing; leave one out"));
  CHECK_THAT(refusal("value = { from = \"shelf\" }\n"),
             Equals("pip.toml:1: \"from\" in [value] is \"shelf\", expected \"book\", or \"rows\" for those "
                    "of the file alone"));
  CHECK_THAT(
      refusal(row),
      Equals("pip.toml:1: the file has no \"vehicle\", expected a table [vehicle] with year and odometer"));
  CHECK_THAT(
      refusal("vehicle = { year = 2012 }\n" + row),
      Equals("pip.toml:1: [vehicle] has no \"odometer\", expected a distance with at most 3 decimals"));
  const auto with = [](const std::string& changed, const std::string& to) {
    std::string text = vehicle + row;
    text.replace(text.find(changed), changed.size(), to);
    return refusal(text);
  };
  CHECK_THAT(with("price = 3900", "price = 0"),
             Equals("pip.toml:3: \"price\" in [[comparable]] is 0, expected an amount above 0"));
  CHECK_THAT(with("\"asking\"", "\"guess\""),
             Equals("pip.toml:4: \"kind\" in [[comparable]] is \"guess\", expected \"asking\" or \"sold\""));
  CHECK_THAT(with("odometer = 88000", "odometer = -1"),
             Equals("pip.toml:5: \"odometer\" in [[comparable]] is -1, expected a distance of 0 or more"));
  CHECK_THAT(
      with("grade = 4", "grade = 6"),
      Equals(
          "pip.toml:7: \"grade\" in [[comparable]] is 6, expected a grade from 1 (rough) to 5 (spotless)"));
  CHECK_THAT(with("grade = 4", "grades = 4"),
             Equals("pip.toml:7: unknown key \"grades\" in [[comparable]], did you mean \"grade\"?"));
  CHECK_THAT(refusal(vehicle + "value = { slopes = { yaer = \"flat\" } }\n" + row),
             Equals("pip.toml:2: unknown key \"yaer\" in [value.slopes], did you mean \"year\"?"));
  for (const char* wrong : {"[0.1, 0]", "[0.1]", "0.1", "\"falt\"", "[0.1, \"x\"]", "[inf, 1]"})
    CHECK(refusal(vehicle + "value = { slopes = { year = " + wrong + " } }\n" + row)
              .find(", expected [share of the median price, give or take above 0] or \"flat\"") !=
          std::string::npos);
  CHECK_THAT(refusal(vehicle + "value = { slopes = { spread = [0, 3] } }\n" + row),
             Equals("pip.toml:2: \"spread\" in [value.slopes] is [0, 3], expected [share of the median price "
                    "above 0, number "
                    "of cars it counts for above 0] or \"flat\""));
  CHECK_THAT(refusal(vehicle + "value = { slopes = 3 }\n" + row),
             Equals("pip.toml:2: \"slopes\" in [value] is 3, expected a table, [value.slopes]"));
}

// Vehicle identification numbers against the samples of 49 CFR 565.15(c), of the agency's Outline for New
// Manufacturers, and two public examples (one with check digit X, one of ones).
#include "exact/vin.h"

#include <catch2/catch.hpp>

#include "exact/ends.h"

using namespace nonrunner;
using Catch::Matchers::Equals;

namespace {
std::string refusal_of(const std::string& vin) {
  try {
    checked_vin(vin);
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "accepted";
}
}  // namespace

TEST_CASE("the published vehicle identification numbers have their published check digits",
          "[vin][outside]") {
  struct Row {
    std::string vin;
    char digit;
  };
  const std::vector<Row> rows = {{"1G4AH59H45G118341", '4'},   // 49 CFR 565.15(c): sum 411, remainder 4
                                 {"1J9RP1A36A1644345", '6'},   // Outline for New Manufacturers: sum 314
                                 {"1M8GDM9AXKP042788", 'X'},   // public example: sum 351
                                 {"11111111111111111", '1'}};  // public example: sum 89
  for (const Row& row : rows) {
    CHECK(vin_check_digit(row.vin) == row.digit);
    CHECK(checked_vin(row.vin) == row.vin);
  }
  CHECK(checked_vin("1m8gdm9axkp042788") == "1M8GDM9AXKP042788");
}

TEST_CASE("a number that is no vehicle identification number is refused, saying why", "[vin][outside]") {
  CHECK_THAT(refusal_of("1G4AH59H35G118341"), Equals("found the check digit 3 (character 9), expected 4 for "
                                                     "the others; copy the number again, or leave it out if "
                                                     "the car was not made for North America"));
  CHECK_THAT(refusal_of("1J9RP1A3XA1644345"), Equals("found the check digit X (character 9), expected 6 for "
                                                     "the others; copy the number again, or leave it out if "
                                                     "the car was not made for North America"));
  for (const std::string letter : {"I", "O", "Q"})
    CHECK_THAT(
        refusal_of("1M8GDM9A" + letter + "KP042788"),
        Equals(
            "found \"" + letter +
            "\" as character 9, expected a digit or a letter other than I, O and Q; copy the number again"));
  CHECK_THAT(refusal_of("1M8GDM9AXKP04278"),
             Equals("found 16 characters, expected 17; copy the number again"));
  CHECK_THAT(refusal_of("1M8GDM9AXKP0427880"),
             Equals("found 18 characters, expected 17; copy the number again"));
  CHECK_THAT(refusal_of("1M8GDM9AXKP04278-"), Equals("found \"-\" as character 17, expected a digit or a "
                                                     "letter other than I, O and Q; copy the number again"));
}

TEST_CASE(
    "one digit typed wrong is always found by the check digit, except in its own place's letters of like "
    "value",
    "[vin]") {
  const std::string right = "1G4AH59H45G118341";
  for (std::size_t at = 0; at < right.size(); ++at)
    for (char c = '0'; c <= '9'; ++c) {
      if (c == right[at] || right[at] > '9') continue;
      std::string wrong = right;
      wrong[at] = c;
      CHECK(refusal_of(wrong) != "accepted");
    }
}

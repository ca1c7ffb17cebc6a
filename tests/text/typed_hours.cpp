#include "text/typed_hours.h"

#include <catch2/catch.hpp>

#include "exact/ends.h"

using namespace nonrunner;

TEST_CASE("hours are typed as a number with a point or a comma, or as hours and minutes", "[words]") {
  const auto hours = [](const char* typed) { return typed_hours(typed).shown(); };
  CHECK(hours("2.25") == "2.25");
  CHECK(hours("0,5") == "0.5");
  CHECK(hours("2,25") == "2.25");
  CHECK(hours("1:30") == "1.5");
  CHECK(hours("0:20") == "0.333");
  CHECK_FALSE(hours_and_minutes("1.5"));
}

TEST_CASE("what may be thousands, or is no time, is no hours", "[words]") {
  for (const char* typed : {"", ",", "1,500", "1,5,2", "1:75", "1:5", ":30", "1:30:00", "-1:30"}) {
    INFO(typed);
    CHECK_THROWS_AS(typed_hours(typed), Refusal);
  }
}

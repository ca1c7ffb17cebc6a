#include "appraisal/go_on.h"

#include <catch2/catch.hpp>

#include "exact/ends.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;
using Catch::WithinAbs;

namespace {
OpenCourses sample(const std::string& name) {
  const std::string file = NONRUNNER_SOURCE "/sample-jobs/" + name + "/go-on.toml";
  return read_courses(read_file(file), file);
}
std::string refusal_of(const std::string& text) {
  try {
    read_courses(text, "courses.toml");
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "accepted";
}
}  // namespace

TEST_CASE("sprat after the discovery: two courses too close to call, so the shorter one", "[appraisal]") {
  const GoOn result = go_on(sample("sprat"));
  // By hand: 3241.50 - 40 - 798 - 23.4 x 20 - 36 x 2.50 = 1845.50;
  // 0.7 (2870 - 40 - 588 - 292 - 77.50) + 0.3 (3241.50 - 40 - 888 - 548 - 102.50) = 1809.65; 1050 - 40
  // + 50.53 - 45 = 1015.53; 908.33 - 60 + 50.53 - 366 - 27.50 = 505.36; 340 + 50.53 - 10 - 5 = 375.53.
  REQUIRE(result.courses.size() == 5);
  CHECK(result.courses[0].name == "new matrix, back-flush outside, fixes");
  const double values[] = {1845.50, 1809.65, 1015.53, 505.36, 375.53};
  for (std::size_t i = 0; i < 5; ++i) CHECK_THAT(result.courses[i].value, WithinAbs(values[i], 1e-9));
  CHECK_THAT(result.ahead, WithinAbs(35.85, 1e-9));
  CHECK_THAT(result.hours_wrong, WithinAbs(35.85 / 20, 1e-9));
  CHECK(result.too_close);
  CHECK(result.courses[result.advice].name == "flush at home, say that the heater is weak");
}

TEST_CASE("drayman after the discovery: parting out is far ahead", "[appraisal]") {
  const GoOn result = go_on(sample("drayman"));
  // 3333 - 140 + 162.12 - 43 x 20 - 30 x 3 = 2405.12; 950 - 60 + 162.12 - 69 = 983.12; 560 + 162.12 - 20 - 9
  // = 693.12; 4850 - 60 - 3539 - 600 - 150 = 501.
  REQUIRE(result.courses.size() == 4);
  CHECK(result.courses[0].name == "part out");
  CHECK_THAT(result.courses[0].value, WithinAbs(2405.12, 1e-9));
  CHECK_THAT(result.courses[1].value, WithinAbs(983.12, 1e-9));
  CHECK_THAT(result.courses[2].value, WithinAbs(693.12, 1e-9));
  CHECK_THAT(result.courses[3].value, WithinAbs(501.0, 1e-9));
  CHECK_FALSE(result.too_close);
  CHECK(result.advice == 0);
  CHECK(result.hours_wrong == 0);  // 71.1 of its 43 hours it cannot be wrong by
}

TEST_CASE("what is spent already changes nothing", "[appraisal]") {
  // The same money on every course moves every value alike: the order and the distance stay.
  OpenCourses open = sample("drayman");
  const GoOn before = go_on(open);
  for (auto& course : open.courses)
    for (auto& way : course.ways) way.spend += 3647.51;
  const GoOn after = go_on(open);
  for (std::size_t i = 0; i < before.courses.size(); ++i)
    CHECK(before.courses[i].name == after.courses[i].name);
  CHECK_THAT(after.ahead, WithinAbs(before.ahead, 1e-9));
}

TEST_CASE("a mistake in a courses file is named with its place", "[appraisal]") {
  CHECK(refusal_of("hour = 20\nholding_per_day = 0\n") ==
        "courses.toml:1: the file has no [[course]], expected at least one");
  CHECK(refusal_of("hour = 20\nholding_per_day = 0\n[[course]]\nname = \"a\"\nbring = 3\n") ==
        "courses.toml:5: unknown key \"bring\" in [[course]], did you mean \"brings\"?");
  CHECK(refusal_of("hour = 20\nholding_per_day = 0\n[[course]]\nname = \"a\"\nways = [{ chance = 0.5, brings "
                   "= 1 }]\n") ==
        "courses.toml:5: the chances of the ways of \"a\" add up to 0.5, expected 1");
  CHECK(refusal_of("hour = 20\nholding_per_day = 0\n[[course]]\nname = \"a\"\nbrings = -1\n") ==
        "courses.toml:5: \"brings\" in [[course]] \"a\" is -1, expected 0 or more");
}

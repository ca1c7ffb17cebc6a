#include "commands/way_picture.h"

#include <catch2/catch.hpp>

using namespace nonrunner;
using namespace nonrunner::commands;
using appraisal::ChoiceSet;
using Catch::Matchers::Equals;

TEST_CASE("the picture of the way has a column for each span of hours and a letter for each step",
          "[commands]") {
  const std::vector<ChoiceSet> way = {{{}, 0, 0, 0}, {{}, 2, 0, 60}, {{}, 4, 0, 80}, {{}, 8, 0, 100}};
  CHECK_THAT(picture_of_way(way, way, "0.00", "100.00", 17, 5),
             Equals("100.00 |                d\n"
                    "       |        c=======:\n"
                    "       |    b===:::::::::\n"
                    "       |    :::::::::::::\n"
                    "  0.00 |a===:::::::::::::\n"
                    "       +-----------------\n"
                    "        0             8.0 own hours\n"));
}

TEST_CASE("there is no picture of a way without steps", "[commands]") {
  CHECK(picture_of_way({{{}, 0, 0, 0}}, {{{}, 0, 0, 0}}, "0.00", "0.00").empty());
}

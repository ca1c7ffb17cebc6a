// What a picture draws of a long list.
#include "reports/chart.h"

#include <catch2/catch.hpp>

using namespace nonrunner::reports;

TEST_CASE("a picture of more rows than a page holds says in its title how many it draws", "[reports]") {
  Chart chart;
  chart.title = "Hours by operation";
  CHECK(drawn(chart, 40, 40) == 40);
  CHECK(chart.title == "Hours by operation");
  CHECK(drawn(chart, 63, 40) == 40);
  CHECK(chart.title == "Hours by operation; the first 40 of 63");
}

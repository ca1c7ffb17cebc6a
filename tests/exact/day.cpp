#include "exact/day.h"

#include <catch2/catch.hpp>

#include "exact/ends.h"

using namespace nonrunner;

TEST_CASE("a day is written and read as YYYY-MM-DD and in no other way", "[exact]") {
  CHECK(Day(2026, 5, 2).iso() == "2026-05-02");
  CHECK(Day(1, 1, 1).iso() == "0001-01-01");
  CHECK(Day::parse("9999-12-31").iso() == "9999-12-31");
  CHECK(Day::parse("2024-02-29") == Day(2024, 2, 29));
  for (const char* wrong :
       {"", "2026-5-2", "2026/05/02", "20260502", "02-05-2026", "2026-05-02 ", " 2026-05-02",
        "2026-05-02T10:00", "+2026-05-02", "-026-05-02", "2026-W18-6", "2026-122", "٢٠٢٦-٠٥-٠٢"})
    CHECK_THROWS_WITH(Day::parse(wrong), "found \"" + std::string(wrong) +
                                             "\", expected a day written YYYY-MM-DD, such as 2026-05-02");
}

TEST_CASE("a day that is not in the calendar is refused", "[exact]") {
  for (const char* wrong : {"2026-02-29", "2100-02-29", "2026-04-31", "2026-00-10", "2026-13-01",
                            "2026-05-00", "2026-05-32", "0000-01-01"})
    CHECK_THROWS_WITH(Day::parse(wrong), "found \"" + std::string(wrong) +
                                             "\", expected a day of the calendar, such as 2026-05-02");
}

TEST_CASE("days are counted as one walks through a calendar of one's own, over two centuries", "[exact]") {
  const Day first(1899, 12, 31);
  int year = 1899, month = 12, day = 31;
  bool agrees = true;
  for (int walked = 0; year < 2105; ++walked) {
    const Day here = first.plus(walked);
    agrees = agrees && here.year() == year && here.month() == unsigned(month) &&
             here.day_of_month() == unsigned(day) && days_between(first, here) == walked &&
             days_between(here, first) == -walked;
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    const int lengths[] = {31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (++day <= lengths[month - 1]) continue;
    day = 1;
    if (++month <= 12) continue;
    month = 1;
    ++year;
  }
  CHECK(agrees);
}

TEST_CASE("a year earlier is the same day, and the last of February where there was none", "[exact]") {
  CHECK(Day(2026, 5, 2).a_year_earlier() == Day(2025, 5, 2));
  CHECK(Day(2024, 2, 29).a_year_earlier() == Day(2023, 2, 28));
  CHECK(Day(2025, 2, 28).a_year_earlier() == Day(2024, 2, 28));
  CHECK(Day(2025, 3, 1).a_year_earlier() == Day(2024, 3, 1));
}

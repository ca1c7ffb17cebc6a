#include "exact/day.h"

#include <fmt/format.h>

#include <algorithm>

#include "exact/ends.h"

namespace nonrunner {

using namespace std::chrono;

Day::Day(int year, unsigned month, unsigned day) {
  const year_month_day date{std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
  if (year < 1 || year > 9999 || !date.ok())
    throw Refusal(fmt::format(
        "found \"{:04}-{:02}-{:02}\", expected a day of the calendar, such as 2026-05-02", year, month, day));
  days_ = sys_days(date);
}

Day Day::parse(std::string_view text) {
  const auto refuse = [&] {
    throw Refusal("found \"" + std::string(text) +
                  "\", expected a day written YYYY-MM-DD, such as 2026-05-02");
  };
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') refuse();
  const auto number = [&](std::size_t at, std::size_t size) {
    int value = 0;
    for (char c : text.substr(at, size)) {
      if (c < '0' || c > '9') refuse();
      value = value * 10 + (c - '0');
    }
    return value;
  };
  const int year = number(0, 4), month = number(5, 2), day = number(8, 2);
  return Day(year, static_cast<unsigned>(month), static_cast<unsigned>(day));
}

std::string Day::iso() const { return fmt::format("{:04}-{:02}-{:02}", year(), month(), day_of_month()); }
int Day::year() const { return static_cast<int>(year_month_day(days_).year()); }
unsigned Day::month() const { return static_cast<unsigned>(year_month_day(days_).month()); }
unsigned Day::day_of_month() const { return static_cast<unsigned>(year_month_day(days_).day()); }

Day Day::a_year_earlier() const {
  const bool leap_day = month() == 2 && day_of_month() == 29;
  return Day(year() - 1, month(), leap_day ? 28 : day_of_month());
}

}  // namespace nonrunner

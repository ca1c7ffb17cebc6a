// A calendar day: ISO 8601 extended format, YYYY-MM-DD, years 1 to 9999. No time of day, no zone.
#pragma once
#include <chrono>
#include <compare>
#include <string>
#include <string_view>

namespace nonrunner {

class Day {
 public:
  constexpr Day() = default;
  explicit Day(std::chrono::sys_days days) : days_(days) {}
  Day(int year, unsigned month, unsigned day);  // throws Refusal for a day that is not in the calendar
  static Day parse(std::string_view text);      // throws Refusal

  std::string iso() const;
  int year() const;
  unsigned month() const;
  unsigned day_of_month() const;
  Day plus(int days) const { return Day(days_ + std::chrono::days(days)); }
  Day a_year_earlier() const;  // the same day a year before; 29 February gives 28 February

  // Days from the first to the second: the first day does not count, the second does.
  friend int days_between(Day from, Day to) { return static_cast<int>((to.days_ - from.days_).count()); }
  friend constexpr auto operator<=>(Day, Day) = default;

 private:
  std::chrono::sys_days days_{};
};

}  // namespace nonrunner

// Days: what is read, written and read again is the same, also by way of a book, and counting days goes both ways.
#include "book/events/trip.h"
#include "exact/day.h"
#include "fuzz/fuzzed.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace nonrunner;
  const std::string text(reinterpret_cast<const char*>(data), size);
  fuzzed::answered([&] {
    const Day day = Day::parse(text);
    fuzzed::must(day.iso() == text, "a day is written as it was read");
    fuzzed::must(days_between(day, Day(1970, 1, 1)) == -days_between(Day(1970, 1, 1), day),
                 "days are counted both ways");
    const int year = days_between(day.a_year_earlier(), day);
    fuzzed::must(year == 365 || year == 366, "a year has 365 or 366 days");
    fuzzed::recorded([&](book::Recording& recording) {
      record(recording, book::Trip{day, {{"pip", 1000}}, Distance::parse("12.5"), "viewing", "", ""});
    });
  });
  return 0;
}

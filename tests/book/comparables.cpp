#include "book/events/comparables.h"

#include <catch2/catch.hpp>

#include "commands/counter.h"
#include "exact/ends.h"

using namespace nonrunner;
using namespace nonrunner::book;
using commands::Counter;

namespace {

KeptComparable seen(const std::string& model, const char* price, int year, Day day) {
  return {
      0,   model, Money::parse(price, Currency{}), false, Distance::of(90'000'000), year, Quantity::of(3000),
      day, ""};
}

std::vector<std::string> prices(const std::vector<KeptComparable>& all) {
  std::vector<std::string> texts;
  for (const KeptComparable& each : all) texts.push_back(each.price.plain(Currency{}));
  return texts;
}

}  // namespace

TEST_CASE("comparables fit a car by the words of its description, by years, and by when they were seen",
          "[book]") {
  Counter counter("comparables-fit");
  Book book = Book::open(counter.book());
  const Day today(2026, 5, 2);
  Recording recording(book, "2026-05-02T12:00:00Z", today);
  keep_comparable(recording, seen("Kelmore Sprat", "3000", 2013, Day(2026, 4, 1)));
  keep_comparable(recording, seen("sprat 1.4", "3100", 2013, Day(2026, 4, 1)));
  keep_comparable(recording, seen("", "3200", 2013, Day(2026, 4, 1)));
  keep_comparable(recording, seen("Kelmore Sprat diesel", "3300", 2013, Day(2026, 4, 1)));
  keep_comparable(recording, seen("Kelmore Sprat", "3400", 2018, Day(2026, 4, 1)));
  keep_comparable(recording, seen("Kelmore Sprat", "3500", 2019, Day(2026, 4, 1)));
  keep_comparable(recording, seen("Kelmore Sprat", "3600", 2013, Day(2024, 5, 2)));
  keep_comparable(recording, seen("Kelmore Sprat", "3700", 2013, Day(2024, 5, 1)));
  keep_comparable(recording, seen("Kelmore Sprat", "3800", 2013, Day(2026, 5, 3)));
  recording.keep();
  CHECK(prices(comparables_that_fit(book, "2013 Kelmore SPRAT 1.4 hatchback, manual", 2013, today)) ==
        std::vector<std::string>{"3200.00", "3000.00", "3400.00", "3600.00", "3100.00"});
  CHECK(prices(comparables_that_fit(book, "2011 Aldersey Troupe", 2011, today)) ==
        std::vector<std::string>{"3200.00"});
}

TEST_CASE("the same comparable seen again is not counted twice, only its day moves on", "[book]") {
  Counter counter("comparables-again");
  Book book = Book::open(counter.book());
  Recording recording(book, "2026-05-02T12:00:00Z", Day(2026, 5, 2));
  CHECK(keep_comparable(recording, seen("", "3000", 2013, Day(2026, 3, 1))));
  CHECK_FALSE(keep_comparable(recording, seen("", "3000", 2013, Day(2026, 4, 1))));
  CHECK_FALSE(keep_comparable(recording, seen("", "3000", 2013, Day(2026, 2, 1))));
  CHECK(keep_comparable(recording, seen("", "2950", 2013, Day(2026, 4, 1))));
  const auto all = all_comparables(book);
  REQUIRE(all.size() == 2);
  CHECK(all[1].day == Day(2026, 4, 1));
  drop_comparable(recording, all[0].id);
  CHECK(all_comparables(book).size() == 1);
  CHECK_THROWS_AS(drop_comparable(recording, all[0].id), Refusal);
}

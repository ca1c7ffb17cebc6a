// Days against ISO 8601, currencies against ISO 4217.
#include <catch2/catch.hpp>
#include <sstream>

#include "exact/currency.h"
#include "exact/day.h"
#include "exact/ends.h"

using namespace nonrunner;

TEST_CASE("a day is an ISO 8601 calendar date in the extended format and nothing else", "[exact][outside]") {
  // ISO 8601; leap years 1900 no, 2000 yes (read in the source).
  for (const char* good :
       {"2024-02-29", "2000-02-29", "2023-12-31", "1999-01-01", "2026-11-25", "0001-01-01", "9999-12-31"})
    CHECK(Day::parse(good).iso() == good);
  // The basic, week and ordinal forms are ISO 8601 too: refused only because one format is asked for.
  for (const char* bad :
       {"2023-02-29",  "1900-02-29",  "2024-02-30",  "2024-13-01", "2024-00-10", "2024-04-31",
        "2024-1-05",   "24-01-05",    "2024/01/05",  "05.01.2024", "01/05/2024", "2024-01-05T00:00",
        "2024-01-05Z", " 2024-01-05", "2024-01-05 ", "2024-01",    "2024",       "20240105",
        "2024-W01-5",  "2024-005",    "+2024-01-05", "٢٠٢٤-01-05", "2024-01-0l", "",
        "0000-01-01"}) {
    CAPTURE(bad);
    CHECK_THROWS_AS(Day::parse(bad), Refusal);
  }
}

TEST_CASE("days between two dates: the first does not count, the last does", "[exact][outside]") {
  CHECK(days_between(Day(2024, 1, 31), Day(2024, 3, 1)) == 30);
  CHECK(days_between(Day(2023, 1, 31), Day(2023, 3, 1)) == 29);
  CHECK(days_between(Day(2023, 12, 31), Day(2024, 12, 31)) == 366);
  CHECK(days_between(Day(1999, 12, 31), Day(2000, 3, 1)) == 61);
  CHECK(days_between(Day(2024, 5, 5), Day(2024, 5, 5)) == 0);
  // ISO 8601 ordinal dates: 1995-02-04 is day 035 (read in the source), the others computed from the rule.
  for (const auto& [day, ordinal] : {std::pair{Day(1995, 2, 4), 35},
                                     {Day(2008, 12, 29), 364},
                                     {Day(2020, 8, 16), 229},
                                     {Day(2024, 12, 30), 365}})
    CHECK(days_between(Day(day.year(), 1, 1), day) + 1 == ordinal);
  CHECK(Day(2024, 2, 29).a_year_earlier() == Day(2023, 2, 28));
}

TEST_CASE("currencies have the minor digits of ISO 4217", "[exact][outside]") {
  // ISO 4217 list one, published 2024-06-25 (read in the source).
  const auto all_have = [](const char* codes, int digits) {
    std::istringstream in(codes);
    for (std::string code; in >> code;) {
      CAPTURE(code);
      CHECK(Currency::of(code).digits == digits);
    }
  };
  all_have("BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF", 0);
  all_have("BHD IQD JOD KWD LYD OMR TND", 3);
  all_have("CLF UYW", 4);
  all_have("USD EUR GBP CAD AUD CHF SEK NOK DKK PLN CZK HUF INR MXN NZD ZAR BRL", 2);
  for (const char* none : {"XAU", "XTS", "XXX", "usd", "US", "", "ABC"})
    CHECK_THROWS_AS(Currency::of(none), Refusal);
}

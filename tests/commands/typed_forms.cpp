// Numbers and days as people type them.
#include "commands/typed_forms.h"

#include <catch2/catch.hpp>

#include "exact/currency.h"
#include "exact/ends.h"
#include "exact/money.h"
#include "exact/thousandths.h"

using namespace nonrunner;
using commands::Looks;

TEST_CASE(
    "an amount may begin with its point, bear a sign of money, or a comma that can only be a decimal one",
    "[commands]") {
  const Currency usd;
  const auto amount = [&](const char* typed) { return commands::typed_money(typed, usd).plain(usd); };
  CHECK(amount("45") == "45.00");
  CHECK(amount(".75") == "0.75");
  CHECK(amount("-.75") == "-0.75");
  CHECK(amount("$12.50") == "12.50");
  CHECK(amount("-$12.50") == "-12.50");
  CHECK(amount("$-12.50") == "-12.50");
  CHECK(commands::typed_money("\u20ac12,50", Currency::of("EUR")) == Money::of_minor(1250));
  CHECK(commands::typed_money("-\u00a312.50", Currency::of("GBP")) == Money::of_minor(-1250));
  CHECK(commands::typed_money("$12.50", Currency::of("CAD")) == Money::of_minor(1250));
  CHECK(amount("12.50$") == "12.50");
  CHECK(amount("-12,50 $") == "-12.50");
  CHECK(commands::typed_money("12,50\u20ac", Currency::of("EUR")) == Money::of_minor(1250));
  CHECK(commands::is_number_typed("12,50\u20ac"));
  CHECK_THROWS_WITH(commands::typed_money("1.250$", Currency{}),
                    "found \"1.250$\", which may be 1250 or 1.250; write 1250 or 1.25");
  CHECK_THROWS_AS(commands::typed_money("$12.50$", Currency{}), Refusal);
  CHECK_THROWS_AS(commands::typed_money("12.50\u20ac", Currency{}), Refusal);
  CHECK(amount("12,50") == "12.50");
  CHECK(amount("12,5") == "12.50");
  CHECK(amount(",50") == "0.50");
  CHECK(amount("1234,500") == "1234.50");  // with thousands it would be 1,234,500
  CHECK(amount("0,750") == "0.75");        // nobody parts thousands from nothing
  CHECK(amount("1.234,50") == "1234.50");
  CHECK(amount("12.345.678,9") == "12345678.90");
  CHECK(amount("1,450.00") == "1450.00");
  CHECK(amount("1,234,567") == "1234567.00");
}

TEST_CASE("what may be thousands or thousandths is refused with both", "[commands]") {
  CHECK_THROWS_WITH(commands::plain_number("1,234"),
                    "found \"1,234\", which may be 1234 or 1.234; write one of them");
  CHECK_THROWS_WITH(commands::typed_money("$12,500", Currency{}),
                    "found \"$12,500\", which may be 12500 or 12.500; write 12500 or 12.50");
  CHECK_THROWS_WITH(commands::plain_hours("1,500h"),
                    "found \"1,500\", which may be 1500 or 1.500; write one of them");
}

TEST_CASE("three decimals of an amount may be a thousand, where its currency has fewer", "[commands]") {
  CHECK_THROWS_WITH(commands::typed_money("1.250", Currency{}),
                    "found \"1.250\", which may be 1250 or 1.250; write 1250 or 1.25");
  CHECK_THROWS_WITH(commands::typed_money("-$12.000", Currency{}),
                    "found \"-$12.000\", which may be 12000 or 12.000; write 12000 or 12.00");
  CHECK_THROWS_WITH(commands::typed_money("1.234", Currency{}),
                    "found \"1.234\", which may be 1234 or 1.234; write 1234 or 1.23");
  CHECK_THROWS_WITH(commands::typed_money("1.000", Currency::of("JPY")),
                    "found \"1.000\", which may be 1000 or 1.000; write 1000 or 1");
  CHECK(commands::typed_money("1.250", Currency::of("KWD")) == Money::of_minor(1250));
  CHECK(commands::typed_money("0.500", Currency{}) == Money::of_minor(50));
  CHECK(commands::typed_money("1250.500", Currency{}) == Money::of_minor(125'050));
  CHECK(commands::typed_price("1.259", Currency{}).plain(Currency{}) == "1.259");
  CHECK(Hours::parse(commands::plain_hours("1.250")).shown() == "1.25");
}

TEST_CASE("a sign of money is one that the book's currency has", "[commands]") {
  CHECK_THROWS_WITH(
      commands::typed_money("\u20ac12.50", Currency{}),
      "found \"\u20ac12.50\" in a book that is kept in USD, expected an amount in USD; what was paid "
      "in other money is entered at what it cost in USD");
  CHECK_THROWS_AS(commands::typed_money("-\u00a312.50", Currency{}), Refusal);
  CHECK_THROWS_AS(commands::typed_money("$12.50", Currency::of("EUR")), Refusal);
  CHECK_THROWS_AS(commands::typed_price("$12.50", Currency::of("JPY")), Refusal);
  CHECK_THROWS_AS(Hours::parse(commands::plain_hours("$2")), Refusal);
}

TEST_CASE("what is no number stays as it was typed, for its reader to refuse", "[commands]") {
  for (const char* typed : {"", "-", "$", "x", "1.2.3", "1,2,3", "12,", ".", ",", "1.23,4,5", "12.34,5",
                            "1 2", "--5", "1e3", "1:75", "1:5", ":30", "h"}) {
    INFO(typed);
    CHECK_THROWS_AS(Hours::parse(commands::plain_hours(typed)), Refusal);
  }
}

TEST_CASE("hours may be written with an h, or as hours and minutes", "[commands]") {
  const auto hours = [](const char* typed) { return Hours::parse(commands::plain_hours(typed)).shown(); };
  CHECK(hours("1.5") == "1.5");
  CHECK(hours("1.5h") == "1.5");
  CHECK(hours("1,5h") == "1.5");
  CHECK(hours(".75") == "0.75");
  CHECK(hours("0:45") == "0.75");
  CHECK(hours("1:30") == "1.5");
  CHECK(hours("10:00") == "10");
  CHECK(hours("0:20") == "0.333");  // a third, to the nearest thousandth
  CHECK(hours("0:01") == "0.017");
}

TEST_CASE("a word is a number where it can be read as one", "[commands]") {
  for (const char* number : {"45", "-5", ".5", "$3", "1,234", "12,50", "1.5h", "0:45"})
    CHECK(commands::is_number_typed(number));
  for (const char* word : {"", "-", "starter", "3d", "pip", "h", "R05.1", "cash", "x5"})
    CHECK(!commands::is_number_typed(word));
}

TEST_CASE("days without a year look back for what happened and forward for last days", "[commands]") {
  const Day saturday(2026, 5, 2);  // a Saturday: the week of ISO 8601, its 18th in 2026
  const auto back = [&](const char* typed) {
    return commands::typed_day(typed, saturday, Looks::back).iso();
  };
  const auto forward = [&](const char* typed) {
    return commands::typed_day(typed, saturday, Looks::forward).iso();
  };
  CHECK(back("today") == "2026-05-02");
  CHECK(back("Yesterday") == "2026-05-01");
  CHECK(forward("tomorrow") == "2026-05-03");
  CHECK(back("sat") == "2026-05-02");
  CHECK(forward("sat") == "2026-05-02");
  CHECK(back("fri") == "2026-05-01");
  CHECK(forward("Friday") == "2026-05-08");
  CHECK(back("sun") == "2026-04-26");
  CHECK(back("14") == "2026-04-14");
  CHECK(forward("14") == "2026-05-14");
  CHECK(back("2") == "2026-05-02");
  CHECK(back("31") == "2026-03-31");  // April has none
  CHECK(forward("31") == "2026-05-31");
  CHECK(back("02-14") == "2026-02-14");
  CHECK(back("12-31") == "2025-12-31");
  CHECK(forward("02-14") == "2027-02-14");
  CHECK(back("2-29") == "2024-02-29");
  CHECK(forward("2-29") == "2028-02-29");
  CHECK(back("3d") == "2026-04-29");
  CHECK(forward("3d") == "2026-05-05");
  CHECK(back("-3") == "2026-04-29");
  CHECK(forward("-3") == "2026-04-29");
  CHECK(back("2026-2-14") == "2026-02-14");
  CHECK(back("2026-02-14") == "2026-02-14");
}

TEST_CASE("a day that may be read in two ways, or that there is none of, is refused", "[commands]") {
  for (const char* typed : {"02/05/2026", "2/5", "32", "0", "13-01", "02-30", "fr", "someday", "", "3 d", "d",
                            "26-02-14", "2026-02-30", "12345d"}) {
    INFO(typed);
    CHECK_THROWS_AS(commands::typed_day(typed, Day(2026, 5, 2), Looks::back), Refusal);
  }
  CHECK_THROWS_WITH(commands::typed_day("02/05/2026", Day(2026, 5, 2), Looks::back),
                    "found \"02/05/2026\", expected a day, such as fri, 14, 02-14, 3d or 2026-05-02");
}

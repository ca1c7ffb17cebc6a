// The year on one page adds up to what the book and the workbook say.
#include "answers/year_sums.h"

#include <catch2/catch.hpp>

#include "answers/year.h"
#include "commands/counter.h"
#include "words/year_sums.h"

using namespace nonrunner;

TEST_CASE("a year's page holds the book's result, its own hours, and what an hour of them brought",
          "[answers]") {
  commands::Counter counter("year-page");
  counter.run({"set", "hour", "20"});
  counter.run({"owner", "in", "2500", "--purse", "cash", "--date", "2026-01-02"});
  counter.run({"buy", "pip", "900", "--date", "2026-01-05"});
  counter.run(
      {"receipt", "pip", "100", "starter", "--whole", "--supplier", "Cleave Yard", "--date", "2026-01-06"});
  counter.run({"hours", "pip", "8", "starter", "--date", "2026-01-07"});
  counter.run({"sell", "pip", "1500", "--cost", "advert=20", "--date", "2026-02-01"});
  counter.run({"buy", "teal", "700", "--date", "2026-03-01"});
  counter.run({"hours", "teal", "2", "look", "--date", "2026-03-02"});
  counter.run({"receipt", "overhead", "30", "oil for the lift", "--kind", "overhead", "--no-paper", "--date",
               "2026-03-03"});
  const book::Book book = book::Book::open(counter.book());
  const answers::YearSums sums = answers::sums_of(answers::year_figures(book, 2026, counter.today));
  const Currency c;
  // By hand: 1500 - 1000 - 20 = 480 on pip, less 30 of overhead; 10 own hours.
  CHECK(sums.result.plain(c) == "450.00");
  CHECK(sums.sales.plain(c) == "1500.00");
  CHECK(sums.cost_of_sales.plain(c) == "1000.00");
  CHECK(sums.selling_costs.plain(c) == "20.00");
  CHECK(sums.overhead.plain(c) == "30.00");
  CHECK(sums.own_hours.shown() == "10");
  CHECK(sums.per_own_hour->plain(c) == "45.00");
  CHECK(sums.in_cars.plain(c) == "700.00");
  CHECK(sums.in_purses.plain(c) == "2250.00");
  CHECK(sums.without_paper == 1);
  REQUIRE(sums.cars.size() == 2);
  CHECK(sums.cars[0].tag == "pip");
  CHECK(sums.cars[0].result.plain(c) == "480.00");
  CHECK(sums.cars[0].per_own_hour->plain(c) == "60.00");
  CHECK(sums.cars[1].result.plain(c) == "0.00");
  const std::string page = counter.run({"year", "2026"});
  CHECK(page.find("    USD RESULT  450.00\n") != std::string::npos);
  CHECK(page.find("  result an hour  45.00  result / own hours\n") != std::string::npos);
  CHECK(counter.run({"year", "soon"}) ==
        "nonrunner: year: found \"soon\", expected a year, such as 2026; see: nonrunner year --help\n");
}

TEST_CASE("what a car cost after its sale and what looking at others cost are sums of their own",
          "[answers]") {
  commands::Counter counter("year-late");
  counter.run({"owner", "in", "2500", "--purse", "cash", "--date", "2026-01-02"});
  counter.run({"buy", "pip", "900", "--date", "2026-01-05"});
  counter.run({"sell", "pip", "1500", "--date", "2026-02-01"});
  counter.run({"receipt", "pip", "15", "bulb", "--no-paper", "--date", "2026-02-03"});
  counter.run({"receipt", "wren", "12", "inspection", "--no-paper", "--new", "--date", "2026-02-04"});
  counter.run({"pass", "wren", "rot", "--date", "2026-02-05"});
  const book::Book book = book::Book::open(counter.book());
  const answers::YearSums sums = answers::sums_of(answers::year_figures(book, 2026, counter.today));
  const Currency c;
  CHECK(sums.late_cost.plain(c) == "15.00");
  CHECK(sums.looking.plain(c) == "12.00");
  CHECK(sums.result.plain(c) == "573.00");                                      // 1500 - 900 - 15 - 12
  for (const answers::YearCar& car : sums.cars) CHECK_FALSE(car.per_own_hour);  // nobody worked
}

TEST_CASE("sales that fell through stand on a line of their own, beside those of the year", "[answers]") {
  commands::Counter counter("year-returned");
  counter.run({"buy", "pip", "900", "--purse", "cash", "--date", "2025-01-05"});
  counter.run({"sell", "pip", "1500", "--date", "2025-02-01"});
  counter.run({"void", "2", "it came back", "--later", "2026-01-10"});
  counter.run({"sell", "pip", "1400", "--date", "2026-02-01"});
  const book::Book book = book::Book::open(counter.book());
  const answers::YearSums sums = answers::sums_of(answers::year_figures(book, 2026, counter.today));
  const Currency c;
  const auto rows = words::how_it_comes_about(sums);
  REQUIRE(rows.size() == 2);  // the cost went back and out again
  CHECK(rows[0].what == "sales");
  CHECK(rows[0].amount.plain(c) == "1400.00");
  CHECK(rows[1].what == "sales returned");
  CHECK(rows[1].amount.plain(c) == "-1500.00");
  CHECK(sums.sales.plain(c) == "-100.00");
  Money all;
  for (const words::YearRow& row : rows) all += row.amount;
  CHECK(all == sums.result);
}

TEST_CASE("sums of a year are of every car, tool, debt and month, and an hour is rounded away from nothing",
          "[answers]") {
  figures::YearFigures year;
  const auto cents = [](std::int64_t minor) { return Money::of_minor(minor); };
  year.result = cents(-1001);
  figures::YearVehicle pip;
  pip.tag = "pip";
  pip.sales = cents(1000), pip.cost_of_sales = cents(400), pip.selling_costs = cents(30);
  pip.other_income = cents(7), pip.late_cost = cents(5);
  pip.own_hours = Hours::parse("2");
  pip.ended_in_year = true;
  pip.closing = cents(60);
  year.vehicles = {pip, pip};
  year.months.resize(2);
  for (figures::YearMonth& month : year.months) month.tools = cents(11), month.overhead = cents(13);
  figures::YearLine jack, press;
  jack.amount = cents(90), press.amount = cents(80);
  year.tools_kept = {jack, press};
  figures::YearOwed lamp, card;
  lamp.amount = cents(45), card.amount = cents(20);
  year.owed = {lamp, card};
  year.card_owed = cents(20);
  const answers::YearSums sums = answers::sums_of(year);
  CHECK(sums.cars[0].result == cents(1000 - 400 - 30 + 7 - 5));
  CHECK(sums.cars[0].per_own_hour == cents(286));
  CHECK(sums.per_own_hour == cents(-250));  // -10.01 for four hours: -2.5025
  CHECK(sums.in_cars == cents(120));
  CHECK(sums.tools == cents(22));
  CHECK(sums.overhead == cents(26));
  CHECK(sums.in_tools == cents(170));
  CHECK(sums.owed == cents(65));
  CHECK(sums.owed_on_cards == cents(20));
  // One that ended in the year brings its result for the hours of the years before as well; any other has none an hour.
  year.vehicles[0].hours_before = Hours::parse("18");
  year.vehicles[1].ended_in_year = false;
  const answers::YearSums two_years = answers::sums_of(year);
  CHECK(two_years.cars[0].per_own_hour == cents(29));  // 5.72 for 20 hours
  CHECK_FALSE(two_years.cars[1].per_own_hour);
  CHECK(words::hours_before(two_years) == "an hour: with the own hours of the years before, 18 of pip");
  CHECK(two_years.own_hours == Hours::parse("4"));
  year.result = cents(5), year.vehicles.resize(1);
  CHECK(answers::sums_of(year).per_own_hour == cents(3));  // 2.5
}

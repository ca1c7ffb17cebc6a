// What the job and the shopping workbook are filled with.
#include "answers/job.h"

#include <catch2/catch.hpp>

#include "answers/shopping.h"
#include "commands/sprat_until.h"
#include "reports/folder.h"
#include "reports/job.h"
#include "reports/open_words.h"
#include "reports/shopping.h"
#include "reports/shopping_words.h"

using namespace nonrunner;
using namespace nonrunner::commands;
using namespace nonrunner::answers;

namespace {

const Currency usd = Currency::of("USD");

// The sample hatchback on the evening of its discovery: pump and radiator bought, 9.3 hours worked.
void post_until_discovery(Counter& counter) {
  counter.today = Day(2025, 3, 11);
  post_sprat(counter, "date = 2025-03-11, supplier = \"Millgate Parts\"");
  counter.today = Day(2025, 3, 9);
}

}  // namespace

TEST_CASE("a paper that waits for its paper is named at the line that it stands under, or may be",
          "[answers]") {
  Counter counter("waits");
  post_until_discovery(counter);
  counter.run({"receipt", "sprat", "88", "heater core, used", "--purse", "cash"});
  counter.run({"receipt", "sprat", "21.40", "head gasket set", "--purse", "cash"});
  const book::Book book = book::Book::open(counter.book());
  std::string waits;
  for (const auto& cost : job_figures(book, "sprat", counter.today).costs)
    if (!cost.waits.empty()) waits += cost.what + ": " + reports::in_words(cost.waits, usd) + "\n";
  CHECK(waits ==
        "head gasket set: entry 20, 21.40, waits for its paper\n"
        "heater core, used: entry 19 waits for its paper\n");
}

TEST_CASE("a car in pieces is not shopped for, and its job workbook says what its parts should still bring",
          "[answers]") {
  Counter counter("in-pieces");
  post_until_discovery(counter);
  {
    const book::Book book = book::Book::open(counter.book());
    CHECK_FALSE(shopping_figures(book, "", counter.today).lines.empty());
    CHECK_FALSE(job_figures(book, "sprat", counter.today).in_pieces_since);
  }
  counter.run({"part-out", "sprat", "900"});
  counter.run({"recover", "sprat", "60", "doors", "--purse", "cash"});
  const book::Book book = book::Book::open(counter.book());
  CHECK(shopping_figures(book, "", counter.today).lines.empty());
  CHECK(shopping_figures(book, "sprat", counter.today).lines.empty());
  const figures::JobFigures job = job_figures(book, "sprat", counter.today);
  CHECK(job.in_pieces_since == counter.today);
  CHECK(job.not_yet_recovered.plain(usd) == "1355.87");  // 1,415.87 less the doors
  CHECK(job.still_brings.plain(usd) == "840.00");
  for (const figures::JobCost& cost : job.costs) CHECK(is_zero(cost.to_complete));
  for (const figures::JobHours& hours : job.hours) CHECK(hours.to_complete == Hours{});
  // There is no going on with it, from the book.
  CHECK(counter.run({"go-on", "sprat"}) ==
        "nonrunner: go-on: sprat is in pieces since 2025-03-09: it is parted out already, expected a car "
        "that can "
        "still be put right, a --date before that, or courses of your own with --file COURSES.toml\n");
}

TEST_CASE(
    "the job workbook breaks even where show says, with what was booked of the selling and a deposit kept",
    "[answers]") {
  Counter counter("job-break-even");
  post_until_discovery(counter);
  counter.run({"cost", "sprat", "25", "advert", "--purse", "cash"});
  counter.run({"deposit", "sprat", "100", "--purse", "cash"});
  counter.run({"deposit", "sprat", "100", "--kept"});
  const book::Book book = book::Book::open(counter.book());
  const figures::JobFigures job = job_figures(book, "sprat", counter.today);
  CHECK(job.selling_costs_so_far.plain(usd) == "25.00");
  CHECK(job.deposit_kept.plain(usd) == "100.00");
  REQUIRE(job.break_even_price);
  CHECK(counter.run({"show", "sprat"}).find("BREAK-EVEN PRICE  " + job.break_even_price->shown(usd)) !=
        std::string::npos);
  // Refused where its own sums come to another price.
  const reports::Folder folder;
  CHECK_NOTHROW(reports::write_job(job, folder.path / "job.xlsx"));
}

TEST_CASE("the job workbook lists what may still go back of its car", "[answers]") {
  Counter counter("job-may-go-back");
  post_until_discovery(counter);
  counter.run({"post", counter.file("papers.toml", R"(event = [
  { do = "receipt", date = 2025-03-09, supplier = "Harrow", paid = "cash", tax = 0.00, total = 41.00, back_by = 2025-04-08, line = [
    { id = "lamp", what = "lamp", unit = 30.00, kind = "part", share = { sprat = 2, teal = 1 } },
    { id = "wiper", what = "wiper", unit = 11.00, kind = "part", to = "teal" } ] },
])")});
  const book::Book book = book::Book::open(counter.book());
  const auto may = job_figures(book, "sprat", counter.today).may_go_back;
  REQUIRE(may.size() == 1);
  CHECK(may.front().what == "lamp");
  CHECK(may.front().from == "Harrow");
  CHECK(may.front().by == Day(2025, 4, 8));
  CHECK(may.front().amount.plain(usd) == "20.00");  // its part of the refund
}

TEST_CASE("the shopping workbook gives the price of the piece, and when it is needed", "[answers]") {
  Counter counter("shopping");
  counter.today = Day(2026, 5, 2);
  const std::string job = counter.file("job.toml", read_file(NONRUNNER_SOURCE "/sample-jobs/sprat/job.toml"));
  counter.run({"buy", "sprat", "800", "--fee", "title=62", "--purse", "cash", "--job", job});
  counter.run({"note", "sprat", "Not there: radiator, wide, at Cleave Yard"});
  counter.run({"note", "sprat", "not there: seat"});
  counter.run({"note", "sprat", "the fan turns, not there the noise"});
  const book::Book book = book::Book::open(counter.book());
  const figures::ShoppingFigures shopping = shopping_figures(book, "", counter.today);
  const auto line = [&](const std::string& what) {
    for (const figures::ShoppingLine& each : shopping.lines)
      if (each.what == what) return each;
    FAIL("no line " << what);
    return figures::ShoppingLine();
  };
  // No cause is noted: the likeliest, a head gasket.
  const figures::ShoppingLine radiator = line("radiator");
  CHECK(radiator.price.plain(usd) == "48.00");
  CHECK(radiator.expected.plain(usd) == "69.30");  // and 15 % of 142.00
  CHECK(reports::when_needed(radiator, Currency()) == "if it is bad (15 %): new at 142.00");
  const figures::ShoppingLine head = line("cylinder head, complete");
  CHECK(head.price.plain(usd) == "390.00");
  CHECK(head.core.plain(usd) == "75.00");
  CHECK(head.expected.plain(usd) == "58.50");
  CHECK(reports::when_needed(head, Currency()) == "only if \"reseal the head\" does not hold, 15 %");
  CHECK(reports::when_needed(line("head gasket set"), Currency()).empty());
  // With what is not shopped for it is the cost to complete that show gives.
  REQUIRE(shopping.vehicles.size() == 1);
  CHECK(shopping.vehicles[0].cause == "head gasket leaking");
  CHECK_FALSE(shopping.vehicles[0].cause_is_noted);
  CHECK(shopping.vehicles[0].to_complete.plain(usd) == "1116.32");
  CHECK(counter.run({"show", "sprat"}).find("still to come: 1,116.32 and") != std::string::npos);
  const reports::Folder folder;
  CHECK_NOTHROW(reports::write_shopping(shopping, folder.path / "shopping.xlsx"));

  REQUIRE(shopping.not_there.size() == 2);
  CHECK(shopping.not_there[0].what == "radiator, wide");
  CHECK(shopping.not_there[0].place == "Cleave Yard");
  CHECK(shopping.not_there[1].what == "seat");
  CHECK(shopping.not_there[1].place.empty());
}

// What the job and the shopping workbook are filled with.
#include "answers/job.h"

#include <catch2/catch.hpp>

#include "answers/pip.h"
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
  // Only the work of parting it out, as the appraisal has it.
  for (const figures::JobCost& cost : job.costs)
    CHECK(cost.to_complete.plain(usd) == (cost.what == "parting out" ? "60.00" : "0.00"));
  for (const figures::JobHours& hours : job.hours)
    CHECK((hours.to_complete > Hours{}) == (hours.operation == "parting out"));
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
  CHECK(counter.run({"show", "sprat"}).find("still to come: 1,116.32 (in the") != std::string::npos);
  const reports::Folder folder;
  CHECK_NOTHROW(reports::write_shopping(shopping, folder.path / "shopping.xlsx"));

  REQUIRE(shopping.not_there.size() == 2);
  CHECK(shopping.not_there[0].what == "radiator, wide");
  CHECK(shopping.not_there[0].place == "Cleave Yard");
  CHECK(shopping.not_there[1].what == "seat");
  CHECK(shopping.not_there[1].place.empty());
}

namespace {

const figures::JobCost& cost_of(const figures::JobFigures& job, const std::string& what) {
  for (const figures::JobCost& each : job.costs)
    if (each.what == what) return each;
  FAIL("no cost " << what);
  throw std::logic_error(what);
}
const figures::JobHours& hours_of(const figures::JobFigures& job, const std::string& operation) {
  for (const figures::JobHours& each : job.hours)
    if (each.operation == operation) return each;
  FAIL("no hours " << operation);
  throw std::logic_error(operation);
}
const std::string gasket_is_it =
    "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }";

}  // namespace

TEST_CASE("a cost of the job workbook says how likely it is, what it follows from and which paper may be it",
          "[answers]") {
  Pip pip;
  pip.post(gasket_is_it);
  const book::EntryId quick = pip.bought("set of seals", "20.00");
  pip.post(
      "{ do = \"receipt\", date = 2025-06-06, supplier = \"Cleave\", paid = \"cash\", total = 45.00, line = "
      "[{ what = \"wing\", qty = 2, unit = 15.00, kind = \"part\", to = \"pip\", more = true }, "
      "{ what = \"lift\", amount = 15.00, kind = \"fee\", to = \"pip\", for = \"none\" }] }");
  figures::JobFigures job = job_figures(pip.book(), "pip", pip.today);
  CHECK(cost_of(job, "price paid").actual == book::usd("900.00"));
  CHECK(job.expected_price == book::usd("2940.00"));  // 3,000 less the mark of 50 and 10 that stay off
  const figures::JobCost& set = cost_of(job, "set");
  CHECK(set.part_of == "correction");
  CHECK(set.chance == 1);
  CHECK(set.if_needed == book::usd("118.00"));
  CHECK(set.follows == figures::JobCost::Follows::pieces);
  REQUIRE(set.waits.size() == 1);
  CHECK(set.waits[0].entry == quick);
  CHECK(reports::in_words(set.waits, usd) == "entry 4, 20.00, waits for its paper and may be this");
  REQUIRE(job.waiting.size() == 1);
  CHECK(job.waiting[0].entry == quick);
  // A fix is an amount: pieces mean nothing in it.
  CHECK(cost_of(job, "wing").follows == figures::JobCost::Follows::amount);
  CHECK_FALSE(cost_of(job, "wing").quantity);
  CHECK(cost_of(job, "wing").actual == book::usd("30.00"));
  CHECK(cost_of(job, "lift").part_of == "discovery");  // it stands on a paper
  // What is done follows from nothing; what comes after the sale is none of its cost.
  pip.post(
      "{ do = \"done\", date = 2025-06-07, vehicle = \"pip\", lines = [\"set\"] }, "
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1450.00, purse = \"cash\" }, "
      "{ do = \"receipt\", date = 2025-06-25, paid = \"cash\", total = 9.00, itemised = false, line = "
      "[{ what = \"wing\", amount = 9.00, kind = \"part\", to = \"pip\" }] }");
  job = job_figures(pip.book(), "pip", pip.today);
  CHECK(cost_of(job, "set").follows == figures::JobCost::Follows::nothing);
  CHECK(cost_of(job, "wing").actual == book::usd("30.00"));
  CHECK(job.ended == "Sold");
}

TEST_CASE("hours of the job workbook are what is left of the budget, a helper's and those under none apart",
          "[answers]") {
  Pip pip;
  pip.post(
      gasket_is_it +
      ", { do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"operation 1\", own = 3 }, "
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"wash\", own = 1 }, "
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"weld\", paid = 2, rate = 10, "
      "purse = \"cash\" }");
  const figures::JobFigures job = job_figures(pip.book(), "pip", pip.today);
  CHECK(hours_of(job, "operation 1").budget == Hours::parse("7"));
  CHECK(hours_of(job, "operation 1").actual == Hours::parse("3"));
  CHECK(hours_of(job, "operation 1").to_complete == Hours::parse("4"));
  CHECK(hours_of(job, "operation 1").follows);
  CHECK_FALSE(hours_of(job, "opening up").follows);  // the cause is found
  CHECK(hours_of(job, "wash").actual == Hours::parse("1"));
  CHECK(hours_of(job, "weld").paid == Hours::parse("2"));
  CHECK(hours_of(job, "weld").actual == Hours{});
}

TEST_CASE("a car that was not bought has no price paid, one that was written off is finished", "[answers]") {
  book::Shop shop;
  keep_job(shop, certain_job());
  for (const figures::JobCost& each : job_figures(shop.book(), "pip", shop.today).costs)
    CHECK_FALSE(each.price_paid);
  Pip pip;
  pip.post(
      "{ do = \"part out\", date = 2025-06-12, vehicle = \"pip\", still_brings = 100.00 }, "
      "{ do = \"write off\", date = 2025-06-13, vehicle = \"pip\" }");
  CHECK(job_figures(pip.book(), "pip", pip.today).ended == "Finished");
}

namespace {

const figures::ShoppingLine& shopped(const figures::ShoppingFigures& shopping, const std::string& what) {
  for (const figures::ShoppingLine& each : shopping.lines)
    if (each.what == what) return each;
  FAIL("no line " << what);
  throw std::logic_error(what);
}
std::string most_of(const figures::ShoppingLine& line) { return line.most ? line.most->plain(usd) : "none"; }
std::string job_with_parts(const std::string& parts) {
  return appraisal::with(certain_job(), "{ name = \"set\", qty = 1, new = 118 }", parts);
}

}  // namespace

TEST_CASE("a used part may cost what leaves it no dearer than the cheapest other source", "[answers]") {
  const auto radiator = [](const std::string& prices) {
    Pip pip(job_with_parts("{ name = \"set\", qty = 1, new = 118 }, { name = \"radiator\", qty = 2, " +
                           prices + ", use = \"salvage\" }"));
    const figures::ShoppingFigures shopping = shopping_figures(pip.book(), "", pip.today);
    CHECK(most_of(shopped(shopping, "set")) == "none");  // a new one
    CHECK(shopped(shopping, "set").place == figures::ShoppingLine::Place::counter);
    CHECK(shopped(shopping, "radiator").place == figures::ShoppingLine::Place::yard);
    return most_of(shopped(shopping, "radiator"));
  };
  // One in ten is bought new again; half an hour at the yard brings both: 120 - 12 - 10 / 2.
  CHECK(radiator("new = 120, reman = 140, salvage = 40, bad = 0.1, pull_hours = 0.5") == "103.00");
  CHECK(radiator("new = 10, salvage = 8, bad = 0.95, pull_hours = 0.5") == "0.00");
}

TEST_CASE("a fix with used parts may cost what leaves it no worse than the best other one, or none",
          "[answers]") {
  const auto wing = [](const std::string& other) {
    Pip pip(appraisal::with(certain_job(), "restores = 0.95 }]", "restores = 0.95 }" + other + "]"));
    return most_of(shopped(shopping_figures(pip.book(), "", pip.today), "from the yard"));
  };
  // An hour costs 20 and half a day of 3. 0.95 x 200 - 2 x 21.5 = 147 before its price.
  CHECK(wing("") == "147.00");
  CHECK(wing(", { name = \"panel\", source = \"new\", cash = 300, hours = 1, restores = 1 }") == "147.00");
  // 200 - 150 - 21.5 = 28.5 by the new one.
  CHECK(wing(", { name = \"panel\", source = \"new\", cash = 150, hours = 1, restores = 1 }") == "118.50");
}

TEST_CASE(
    "what is begun is shopped for as far as it is left, and what only another cause needs by its chance",
    "[answers]") {
  std::string job = job_with_parts(
      "{ name = \"radiator\", qty = 2, new = 120, salvage = 40, bad = 0.1, use = \"salvage\" }");
  job = appraisal::with(job, "takes_off = 50\n",
                        "takes_off = 50\nsublet = [{ name = \"skim\", price = 80 }]\n");
  job = appraisal::with(
      job, "found = 800\n",
      "found = 800\ncorrection = \"change\"\n[[correction]]\nname = \"change\"\nparts = [{ name = \"pump\", "
      "qty = 1, new = 90 }]\nworks = 0.9\notherwise = \"dear\"\n[[correction]]\nname = \"dear\"\nparts = "
      "[{ name = \"engine\", qty = 1, new = 500 }]\n");
  Pip pip(job);
  const figures::ShoppingFigures whole = shopping_figures(pip.book(), "", pip.today);
  CHECK(shopped(whole, "skim").place == figures::ShoppingLine::Place::ordered);
  CHECK(shopped(whole, "skim").price.plain(usd) == "80.00");
  CHECK(shopped(whole, "radiator").quantity == Quantity::of(2000));
  CHECK(shopped(whole, "radiator").again == book::usd("120.00"));
  CHECK(shopped(whole, "radiator").certain);
  CHECK(shopped(whole, "pump").other_cause == 0.25);
  CHECK_FALSE(shopped(whole, "pump").certain);
  CHECK(whole.vehicles.at(0).beside == book::usd("110.00"));  // fees 100, opening up 10
  pip.post(
      "{ do = \"receipt\", date = 2025-06-06, supplier = \"Cleave\", paid = \"cash\", total = 35.00, line = "
      "[{ what = \"radiator\", qty = 1, unit = 35.00, kind = \"part\", to = \"pip\" }] }");
  const book::EntryId quick = pip.bought("skim", "30.00", "itemised = false", ", more = true");
  const figures::ShoppingFigures rest = shopping_figures(pip.book(), "", pip.today);
  CHECK(shopped(rest, "radiator").quantity == Quantity::of(1000));
  CHECK(shopped(rest, "skim").price.plain(usd) == "50.00");
  CHECK(shopped(rest, "skim").expected.plain(usd) == "50.00");
  REQUIRE(rest.waiting.size() == 1);
  CHECK(rest.waiting[0].entry == quick);
  // Were it the pump, the engine would come only where the pump does not help.
  pip.post("{ do = \"finding\", date = 2025-06-07, vehicle = \"pip\", text = \"seen\", cause = \"pump\" }");
  const figures::ShoppingFigures pump = shopping_figures(pip.book(), "", pip.today);
  CHECK(shopped(pump, "pump").certain);
  CHECK_FALSE(shopped(pump, "engine").certain);
}

#include "answers/settled_job.h"

#include <catch2/catch.hpp>

#include "answers/own_figures.h"
#include "answers/pip.h"
#include "book/events/comparables.h"
#include "book/ledger/settings.h"
#include "commands/counter.h"
#include "commands/hints.h"
#include "exact/ends.h"
#include "figures/opinion.h"
#include "text/toml.h"
#include "words/settled.h"

using namespace nonrunner;
using namespace nonrunner::commands;
using namespace nonrunner::answers;
using Catch::Matchers::Equals;
using Catch::Matchers::WithinAbs;

namespace {

Settled settled_of(const std::string& text, const book::Book* book) {
  return settled(parse_toml(text, "pip.toml"), "pip.toml", book, Day(2026, 5, 2));
}
std::string refusal(const std::string& text, const book::Book* book) {
  try {
    settled_of(text, book);
  } catch (const Refusal& refused) {
    return with_hint(refused);
  }
  return "accepted";
}

}  // namespace

TEST_CASE("own figures become the stated ones where no car was sold yet", "[answers]") {
  Counter counter("settled-empty");
  const book::Book book = book::Book::open(counter.book());
  const Settled settled = settled_of(
      "[shop]\npace = \"own\"  # mine\nhour = 20\n[sale]\nrealised = ['own', 0.8,\n 0.9, "
      "0.95]\ndays=\"own\"\n"
      "[[cause]]\nname = \"a\"\nodds = [\"own\", 3]\n[[cause]]\nname = \"b\"\nodds = \"own\"\n",
      &book);
  CHECK_THAT(settled.figures,
             Equals("pace = [0.900000, 1.200000, 1.900000]\n"
                    "realised = [0.800000, 0.900000, 0.950000]\n"
                    "days = [7.000000, 18.000000, 45.000000]\nodds = [0.750000, 0.250000]\n"));
  REQUIRE(settled.notes.size() == 5);
  CHECK_THAT(words::in_words(settled.notes[0]),
             Equals("pace: stated 0.9, 1.2, 1.9, counting as 4 cars; own none yet; taken 0.9, 1.2, 1.9"));
  CHECK_THAT(words::in_words(settled.notes[3]),
             Equals("odds of a: stated 0.75; own 0 of 0 cars; taken 0.75"));
}

TEST_CASE("a day of the place is shrunk from what is stated of it, and from nothing where nothing is",
          "[answers]") {
  Pip pip;
  const auto note = [&](const std::string& value) {
    return words::in_words(
        settled(parse_toml("[shop]\nbay_per_day = " + value + "\n", "x"), "x", &pip.book(), Day(2025, 6, 21))
            .notes.at(0));
  };
  CHECK_THAT(note("\"own\""), Equals("bay_per_day: stated 0, counting as 4 cars; own none yet; taken 0"));
  CHECK_THAT(note("[\"own\", 6.5]"),
             Equals("bay_per_day: stated 6.5, counting as 4 cars; own none yet; taken 6.5"));
  // Bought on 2 June at 900 and fees, sold on 20 June: 18 days.
  pip.post(
      "{ do = \"hours\", date = 2025-06-05, vehicle = \"pip\", operation = \"operation 1\", own = 10 }, "
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1460.00, purse = \"cash\" }");
  const OwnPlace place = own_figures(pip.book(), Day(2025, 6, 21)).place();
  CHECK(place.cars == 1);
  CHECK(place.days == 18);
  const double after_hours = 1460 - 900 - 10 * in_units(book::hour(pip.book()), pip.book().currency());
  CHECK_THAT(place.profit, WithinAbs(after_hours, 1e-9));
  CHECK_THAT(note("\"own\""), Equals(fmt::format("bay_per_day: stated 0, counting as 4 cars; own {:.4g} over "
                                                 "1 car; taken {:.4g}",
                                                 after_hours / 18, after_hours / 18 / 5)));
  CHECK_THAT(place.with_stated(7), WithinAbs((4 * 7 + after_hours / 18) / 5, 1e-12));
  CHECK(OwnPlace{-900, 30, 2}.with_stated(1) == 0);
  // What is put into the tree is read by the model as money.
  Value job = parse_toml("[shop]\nbay_per_day = \"own\"\n", "x");
  settle(job, settled(job, "x", &pip.book(), Day(2025, 6, 21)).figures);
  CHECK(job.find("shop")->find("bay_per_day")->text ==
        plain_units(place.with_stated(0), pip.book().currency()));
  CHECK(believed(parse_toml("[shop]\nbay_per_day = [\"own\", 3]\n", "x"), "x").figures ==
        "bay_per_day = 3\n");
}

TEST_CASE("figures are put into the tree where the words stood, and keep their lines", "[answers]") {
  Value job = parse_toml(
      "[shop]\npace = \"own\"\n[[cause]]\nname = \"a\"\nodds = \"own\"\n[[cause]]\nodds = \"own\"\n", "x");
  settle(job, "pace = [0.9, 1.2, 1.9]\nodds = [0.75, 0.25]\n");
  const Value& pace = *job.find("shop")->find("pace");
  REQUIRE(pace.items.size() == 3);
  CHECK(pace.items[1].real == 1.2);
  CHECK(pace.line == 2);
  CHECK(pace.items[1].line == 2);
  CHECK(job.find("cause")->items[0].find("odds")->real == 0.75);
  CHECK(job.find("cause")->items[1].find("odds")->real == 0.25);
  CHECK(job.find("cause")->items[1].find("odds")->line == 7);
}

TEST_CASE("a job file without own figures leaves nothing to the book", "[answers]") {
  const Settled settled = settled_of("[shop]\npace = 1.1 # not \"own\"\n", nullptr);
  CHECK(settled.figures.empty());
  CHECK(settled.notes.empty());
}

TEST_CASE("the book's comparables that fit are rows of the job, in either form of a list", "[answers]") {
  Counter counter("settled-rows");
  book::Book book = book::Book::open(counter.book());
  {
    book::Recording recording(book, "2026-05-02T12:00:00Z", Day(2026, 5, 2));
    keep_comparable(recording,
                    {0, "sprat", Money::parse("3650.50", Currency{}), true, Distance::parse("121500"), 2013,
                     Quantity::parse("3.5"), Day(2026, 4, 1), "a note"});
    keep_comparable(recording, {0, "troupe", Money::parse("5000", Currency{}), true,
                                Distance::parse("121500"), 2013, Quantity::parse("3"), Day(2026, 4, 1), ""});
    recording.keep();
  }
  const std::string vehicle =
      "vehicle = { description = \"2013 Kelmore Sprat\", year = 2013, odometer = 118400 }\n";
  const std::string asks = "[value]\nfrom = \"book\"\n";
  const std::string kept =
      "comparables = [{ price = 3650.50, kind = \"sold\", odometer = 121500, year = 2013, grade = 3.5, date "
      "= "
      "2026-04-01, book = 1 }]\n";
  const auto rows_in = [&](const std::string& text) {
    Value tree = parse_toml(text, "x");
    settle(tree, settled_of(text, &book).figures);
    CHECK(tree.find("value")->find("from")->text == "rows");
    return tree.find("comparable")->items;
  };
  CHECK_THAT(settled_of(vehicle + asks, &book).figures, Equals(kept));
  REQUIRE(rows_in(vehicle + asks).size() == 1);
  CHECK(rows_in(vehicle + asks)[0].find("price")->text == "3650.5");
  const std::string row = "{ price = 4000, kind = \"asking\", odometer = 100000, year = 2013 }";
  CHECK(rows_in("comparable = [ " + row + " ]\n" + vehicle + asks).size() == 2);
  CHECK(rows_in(vehicle + asks + "[[comparable]]\nprice = 1\n").size() == 2);
  const Settled inside = settled_of(vehicle + asks, &book);
  REQUIRE(inside.notes.size() == 1);
  CHECK_THAT(words::in_words(inside.notes[0]),
             Equals("comparables: 1 of the book's 2 fit: by model, within 5 years, seen in the last 2"));
  CHECK_THAT(refusal("vehicle = { description = \"2013 Marlow Pip\", year = 2013 }\n" + asks, &book),
             Equals("pip.toml:3: none of the book's 2 comparables fits a 2013 \"2013 Marlow Pip\"; add some: "
                    "nonrunner comparable add --csv FILE"));
  CHECK_THAT(refusal(vehicle + asks, nullptr),
             Equals("pip.toml:3: \"from\" in [value] is \"book\", and there is no book, expected one, "
                    "or [[comparable]] rows; name one with --book"));
}

TEST_CASE("what is wrong with an own figure is named at its line", "[answers]") {
  Counter counter("settled-wrong");
  const book::Book book = book::Book::open(counter.book());
  CHECK_THAT(refusal("[shop]\npace = \"own\"\n", nullptr),
             Equals("pip.toml:2: \"pace\" in [shop] is to be \"own\", and there is no book, expected one, "
                    "or figures; name one with --book"));
  CHECK_THAT(refusal("[shop]\npace = [\"own\", 1, 0.9, 2]\n", &book),
             Equals("pip.toml:2: \"pace\" in [shop] is [\"own\", 1, 0.9, 2], expected \"own\", or [\"own\", "
                    "low, likely, high] with the three "
                    "points that it is shrunk from, above 0 and rising"));
  CHECK_THAT(refusal("[shop]\nbay_per_day = [\"own\", -1]\n", &book),
             Equals("pip.toml:2: \"bay_per_day\" in [shop] is [\"own\", -1], expected \"own\", or [\"own\", "
                    "amount] with what it is shrunk from, 0 or more"));
  CHECK_THAT(
      refusal("[shop]\nbay_per_day = \"own\"\n", nullptr),
      Equals("pip.toml:2: \"bay_per_day\" in [shop] is to be \"own\", and there is no book, expected one, "
             "or figures; name one with --book"));
  CHECK_THAT(
      refusal("[[cause]]\nodds = \"own\"\n[[cause]]\nodds = 2\n", &book),
      Equals("pip.toml:4: \"odds\" are \"own\" in another [[cause]], expected it of all causes or of none"));
}

TEST_CASE("an own figure says in one row how it was taken, and only what can be a figure is", "[answers]") {
  Pip pip;
  const book::Book& book = pip.book();
  CHECK(settled_of("[shop]\npace = [\"own\"]\n", &book).figures == "pace = [0.900000, 1.200000, 1.900000]\n");
  CHECK(
      refusal("[shop]\npace = [\"own\", 0, 1, 2]\n", &book).starts_with("pip.toml:2: \"pace\" in [shop] is"));
  CHECK(refusal("[[cause]]\nname = \"a\"\nodds = [\"own\", 0]\n", &book) ==
        "pip.toml:3: \"odds\" in [[cause]] is [\"own\", 0], expected \"own\", or [\"own\", odds] with the "
        "odds that "
        "it is shrunk from, above 0");
  // Of one car whose operation took a tenth of the hours: from so few it counts as a quarter.
  pip.post(
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }, "
      "{ do = \"hours\", date = 2025-06-05, vehicle = \"pip\", operation = \"operation 1\", own = 0.7 }, "
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1460.00, purse = \"cash\" }");
  const Settled pace = settled_of("[shop]\npace = \"own\"\n", &book);
  CHECK(parse_toml(pace.figures, "x").find("pace")->items[0].real >= 0.25);
  // It was thought to be the gasket or the pump, and was the gasket: (4 x 1/2 + 1) / 5.
  CHECK(
      settled_of("[[cause]]\nname = \"gasket\"\nodds = \"own\"\n[[cause]]\nname = \"pump\"\nodds = \"own\"\n",
                 &book)
          .figures ==
      fmt::format("odds = [{:.6f}, {:.6f}]\n",
                  (resale::common_practice::odds_weight / 2 + 1) / (resale::common_practice::odds_weight + 1),
                  resale::common_practice::odds_weight / 2 / (resale::common_practice::odds_weight + 1)));
}

TEST_CASE(
    "rows of the book are asked for only where the value is to come of them, and stand beside those of the "
    "file",
    "[answers]") {
  Pip pip;
  const std::string vehicle = "vehicle = { description = \"2013 Marlow Pip\", year = 2013 }\n";
  CHECK(settled_of(vehicle + "[value]\nsound = 3000\nfrom = \"book\"\n", &pip.book()).figures.empty());
  CHECK(refusal(vehicle + "[value]\nfrom = \"book\"\n[[comparable]]\nprice = 1\n", &pip.book()) ==
        "accepted");
  Value tree = parse_toml("[value]\nfrom = \"book\"\n", "x");
  settle(tree, "comparables = [{ price = 1, kind = \"sold\" }]\n");
  REQUIRE(tree.find("comparable"));
  CHECK(tree.find("comparable")->items.at(0).line == 2);  // where it was asked for
}

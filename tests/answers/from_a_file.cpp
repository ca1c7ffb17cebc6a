// What comes from a file is looked at as what is typed: its places in the budget, what its lines are, its days.
#include "answers/brindle.h"
#include "book/events/assigned.h"
#include "book/ledger/entry.h"
#include "book/questions/vehicle_money.h"

namespace book = nonrunner::book;
using Catch::Matchers::Contains;
using nonrunner::answers::Brindle;

namespace {

std::string housing(const std::string& id, const std::string& day = "2026-05-01") {
  return "event = [{ do = \"receipt\", date = " + day + ", supplier = \"Harrow\", number = \"" + id +
         "\", paid = \"cash\", total = 18.00, line = [{ id = \"" + id +
         "\", what = \"thermostat housing\", amount = 18.00, kind = \"part\", to = \"brindle\" }] }]";
}

std::map<std::string, std::string> places_of(Brindle& car) {
  return book::assigned(book::Book::open(car.book()), "brindle");
}

}  // namespace

TEST_CASE(
    "what a file of events brings close to a line of the budget is asked about at a terminal and told "
    "elsewhere",
    "[answers]") {
  Brindle car("from-a-file");
  car.buy();
  CHECK_THAT(car.said({"post", car.file("told.toml", housing("h1"))}),
             Contains("\"thermostat housing\" stands under no line of the budget; if it is line") &&
                 Contains("thermostat: nonrunner under brindle \"thermostat\" --paper-line h1"));
  CHECK(places_of(car).empty());
  CHECK_THAT(car.answered({"post", car.file("asked.toml", housing("h2"))}, "y\n"),
             Contains("\"thermostat housing\": is that line") && Contains("1 event posted"));
  CHECK(places_of(car).at("line h2") == "thermostat");
  car.answered({"post", car.file("no.toml", housing("h3"))}, "n\n");
  CHECK(places_of(car).size() == 1);
}

TEST_CASE("where the input ends before an answer the rest is told with what to type, and all is in the book",
          "[answers]") {
  Brindle car("input-ends");
  car.buy();
  const auto before = book::last_entry(book::Book::open(car.book()));
  const std::string both = housing("h1").substr(0, housing("h1").size() - 1) + ", " + housing("h2").substr(9);
  CHECK_THAT(car.answered({"post", car.file("both.toml", both)}, "y\n"),
             Contains("\"thermostat housing\" stands under no line of the budget; if it is line") &&
                 Contains("--paper-line h2") && !Contains("--paper-line h1") && Contains("2 events posted"));
  CHECK(places_of(car).size() == 1);
  CHECK(places_of(car).at("line h1") == "thermostat");
  CHECK(book::last_entry(book::Book::open(car.book())) == before + 2);
  Brindle other("input-ended");
  other.buy();
  CHECK_THAT(other.answered({"post", other.file("third.toml", housing("h3"))}, ""),
             Contains("--paper-line h3") && Contains("1 event posted"));
}

TEST_CASE("one paper of a list is asked about like a paper that is typed", "[answers]") {
  Brindle car("from-a-list");
  car.buy();
  const std::string list =
      "date,supplier,number,purse,what,amount,kind,to\n2026-05-01,Harrow,1,cash,thermostat "
      "housing,18.00,part,brindle\n";
  CHECK_THAT(car.answered({"receipt", "--csv", car.file("one.csv", list), "--row", "2"}, "y\n"),
             Contains("is that line") && Contains("1 paper added"));
  REQUIRE(places_of(car).size() == 1);
  CHECK(places_of(car).begin()->second == "thermostat");
}

TEST_CASE("a line that is typed is what its budget line is, unless it says otherwise", "[answers]") {
  Brindle car("kind-of-line");
  car.buy();
  const auto kind_of_last = [&] {
    return book::money_of(book::Book::open(car.book()), "brindle").back().kind;
  };
  CHECK_THAT(car.said({"receipt", "brindle", "15", "coolant", "--purse", "cash"}),
             Contains("a consumable as its budget has it"));
  CHECK(kind_of_last() == book::MoneyKind::consumable);
  car.run({"receipt", "brindle", "110", "the head", "--for", "pressure-test and skim the head", "--purse",
           "cash"});
  CHECK(kind_of_last() == book::MoneyKind::sublet);
  car.run({"receipt", "brindle", "16", "coolant", "--kind", "part", "--purse", "cash"});
  CHECK(kind_of_last() == book::MoneyKind::part);
  car.run({"receipt", "brindle", "4", "a thing that nobody planned", "--purse", "cash"});
  CHECK(kind_of_last() == book::MoneyKind::part);
}

TEST_CASE("a day that has not come is refused wherever something is entered, and nothing is recorded",
          "[answers]") {
  Brindle car("not-come");
  car.buy();
  const auto before = book::last_entry(book::Book::open(car.book()));
  CHECK_THAT(car.said({"post", car.file("later.toml", housing("h1", "2026-05-03"))}),
             Contains("receipt: the day 2026-05-03 has not come yet, expected 2026-05-02 at the latest"));
  CHECK_THAT(
      car.said(
          {"receipt", "--file",
           car.file(
               "paper.toml",
               "date = 2026-05-03\nsupplier = \"Harrow\"\npaid = \"cash\"\ntotal = 1.00\n[[line]]\nwhat = "
               "\"bolt\"\namount = 1.00\nkind = \"part\"\nto = \"brindle\"\n")}),
      Contains("the day 2026-05-03 has not come yet, expected 2026-05-02 at the latest"));
  CHECK_THAT(car.said({"receipt", "--csv",
                       car.file("later.csv",
                                "date,supplier,number,purse,what,amount,kind,to\n2026-05-03,Harrow,1,cash,"
                                "bolt,1.00,part,brindle\n")}),
             Contains("the day 2026-05-03 has not come yet, expected 2026-05-02 at the latest"));
  CHECK_THAT(car.said({"correct", "1", "--date", "2026-05-03"}), Contains("has not come yet"));
  CHECK(book::last_entry(book::Book::open(car.book())) == before);
}

// The refusals of what says something of a car's budget: findings with facts, lines planned by hand, lines that
// are done, and the place of a receipt's line.
#include "book/events/done.h"
#include "book/events/finding.h"
#include "book/events/plan.h"
#include "book/ledger/marks.h"
#include "book/walk.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

struct Budgeted : Shop {
  Budgeted() {
    post(R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 5000.00 },
            { do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" },
            { do = "buy", date = 2025-03-02, vehicle = "tern", price = 200.00, purse = "cash" },
            { do = "sell", date = 2025-03-04, vehicle = "tern", price = 500.00, purse = "cash" })");
  }
};

}  // namespace

TEST_CASE("a finding refuses an empty text and a fact without its value", "[book]") {
  Budgeted shop;
  walk(shop,
       {{R"({ do = "finding", date = 2025-03-06, vehicle = "pip", text = "wet", seen = ["flow"] })",
         "finding: seen: found \"flow\", expected NAME=VALUE"},
        {R"({ do = "finding", date = 2025-03-06, vehicle = "pip", text = "wet", trouble = ["=there"] })",
         "finding: trouble: found \"=there\", expected NAME=VALUE"},
        {R"({ do = "finding", date = 2025-03-06, vehicle = "pip", text = "wet", seen = ["flow=none"] })",
         "accepted"}});
}

TEST_CASE("plan refuses in the order of its header", "[book]") {
  Budgeted shop;
  const auto plan = [](const std::string& rest) {
    return "{ do = \"plan\", date = 2025-03-06, " + rest + " }";
  };
  walk(shop, {{plan(R"(vehicle = "heron", name = "matrix", amount = -1, hours = -1, qty = 0)"),
               "plan: no vehicle has the tag \"heron\"; see: nonrunner vehicles"},
              {plan(R"(vehicle = "pip", name = "matrix", amount = -1, hours = -1, qty = 0)"),
               "plan: the amount is -1.00, expected 0 or more"},
              {plan(R"(vehicle = "pip", name = "matrix", hours = -1, qty = 0)"),
               "plan: found -1 own hours and no amount for \"matrix\", expected an amount or hours above 0"},
              {plan(R"(vehicle = "pip", name = "matrix", qty = 0)"),
               "plan: found 0 own hours and no amount for \"matrix\", expected an amount or hours above 0"},
              {plan(R"(vehicle = "pip", name = "matrix", amount = 88, qty = 0)"),
               "plan: found 0 pieces of \"matrix\", expected more than 0"},
              {plan(R"(vehicle = "pip", name = "matrix", amount = 88, qty = 2, hours = 3)"), "accepted"}});
  shop.post(plan(R"(vehicle = "pip", name = "matrix", amount = 88, qty = 2, hours = 3)"));
  const auto lines = planned(shop.book(), "pip");
  REQUIRE(lines.size() == 1);
  CHECK(lines[0].amount == usd("88"));
  CHECK(lines[0].quantity.shown() == "2");
  CHECK(lines[0].hours.shown() == "3");
}

TEST_CASE(
    "the name of a line that every car has is refused by whatever road a plan is entered, and restored as it "
    "was",
    "[book]") {
  Budgeted shop;
  const auto planned_as = [&](const std::string& name, bool entered_now) {
    return shop.refusal_of([&](Recording& recording) {
      recording.wary = entered_now;
      Plan plan;
      plan.day = Day(2025, 3, 6);
      plan.vehicle = "pip";
      plan.name = name;
      plan.amount = usd("5");
      record(recording, plan);
    });
  };
  for (const std::string name : {"fees", "opening up", "pulling parts", "readying", "Opening-up"}) {
    CHECK(planned_as(name, true) ==
          "plan: found \"" + name + "\", which every car has as a line of its budget, expected another name");
    CHECK(planned_as(name, false) == "accepted");
  }
  CHECK(planned_as("fees at the yard", true) == "accepted");
}

TEST_CASE("done refuses in the order of its header, and a void takes back what it said", "[book]") {
  Budgeted shop;
  const auto done = [](const std::string& rest) {
    return "{ do = \"done\", date = 2025-03-06, " + rest + " }";
  };
  walk(shop,
       {{done(R"(vehicle = "heron", says = "open")"),
         "done: no vehicle has the tag \"heron\"; see: nonrunner vehicles"},
        {done(R"(vehicle = "tern", says = "open")"),
         "done: tern was sold on 2025-03-04 (entry 4); to take that back: nonrunner void 4 --why \"...\""},
        {done(R"(vehicle = "pip", says = "open")"),
         "done: no line is named, expected which lines of pip are open again"},
        {done(R"(vehicle = "pip", says = "not needed")"),
         "done: no line is named, expected which lines of pip are not needed"},
        {done(R"(vehicle = "pip", lines = ["seat"], says = "not needed")"), "accepted"}});
  shop.post(done(R"(vehicle = "pip", lines = ["seat"], says = "not needed")"));
  REQUIRE(marks_of(shop.book(), "pip").size() == 1);
  CHECK(marks_of(shop.book(), "pip")[0].says == says::not_needed);
  CHECK(marks_of(shop.book(), "pip")[0].name == "seat");
  CHECK(marks_of(shop.book(), "pip", Day(2025, 3, 5)).empty());
  shop.post(R"({ do = "void", date = 2025-03-07, entry = 5, why = "no" })");
  CHECK(marks_of(shop.book(), "pip").empty());
  CHECK(shop.health().sound);
}

TEST_CASE("a receipt's line says its place in the budget of each of its cars", "[book]") {
  Budgeted shop;
  const auto line = [](const std::string& rest) {
    return "{ do = \"receipt\", date = 2025-03-06, supplier = \"Harrow\", total = 10, paid = \"cash\", line "
           "= [{ what = "
           "\"clips\", amount = 10, kind = \"part\", " +
           rest + " }] }";
  };
  walk(
      shop,
      {{line(R"(share = { pip = 1, tern = 1 }, for = "fees")"),
        "\"for\" in line 1 of the receipt is \"fees\", expected a line of the budget for each car, such as { "
        "pip = \"fees\" }"},
       {line(R"(to = "pip", for = { heron = "fees" })"),
        "for in line 1 of the receipt names heron, which is no car of this line"},
       {line(R"(share = { pip = 1, tern = 1 }, for = { pip = "bumper", tern = "none" }, more = true)"),
        "accepted"}});
  shop.post(line(R"(share = { pip = 1, tern = 1 }, for = { pip = "bumper", tern = "none" }, more = true)"));
  const auto pip = marks_of(shop.book(), "pip"), tern = marks_of(shop.book(), "tern");
  REQUIRE(pip.size() == 2);
  CHECK(pip[0].says == says::under);
  CHECK(pip[0].name == "bumper");
  CHECK(pip[0].line);
  CHECK(pip[1].says == says::more);
  REQUIRE(tern.size() == 2);
  CHECK(tern[0].name == "");
}

TEST_CASE("any event may say which line it stands under, and its text keeps it", "[book]") {
  Budgeted shop;
  shop.post(
      R"({ do = "hours", date = 2025-03-06, vehicle = "pip", operation = "strip", own = 2, for = "pump out", done = true },
               { do = "advertised", date = 2025-03-07, vehicle = "pip", price = 900, still_to_do = ["seat", "lamp"] })");
  const auto marks = marks_of(shop.book(), "pip");
  REQUIRE(marks.size() == 4);
  CHECK(marks[0].name == "pump out");
  CHECK(marks[1].says == says::done);
  CHECK(marks[1].with_hours);
  CHECK(marks[3].name == "lamp");
  CHECK(load_entry(shop.book(), 5).event ==
        "{ do = \"hours\", date = 2025-03-06, vehicle = \"pip\", operation = \"strip\", own = 2, for = "
        "\"pump out\", done "
        "= true }");
  CHECK(load_entry(shop.book(), 6).event ==
        "{ do = \"advertised\", date = 2025-03-07, vehicle = \"pip\", price = 900.00, still_to_do = "
        "[\"seat\", \"lamp\"] }");
}

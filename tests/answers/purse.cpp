// Which purse pays, where nobody says it, and what an entry moved through purses.
#include "answers/purse.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

TEST_CASE("the only purse is taken, else the one last used for this shop, else for this kind of event",
          "[answers]") {
  book::Shop empty;
  CHECK(only_purse(empty.book()) == "cash");
  Pip pip;
  CHECK(only_purse(pip.book()) == "cash");
  pip.post(
      "{ do = \"owner in\", date = 2025-06-02, purse = \"card\", amount = 500.00 }, "
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Tessel\", number = \"1\", paid = \"card\", total "
      "= 9.00, "
      "line = [{ what = \"clip\", amount = 9.00, kind = \"part\", to = \"pip\" }] }");
  pip.bought("rope", "3.00", "supplier = \"Harrow\", number = \"1\"");
  CHECK_FALSE(only_purse(pip.book()));
  CHECK(last_purse(pip.book(), "receipt", "Tessel") == "card");
  CHECK(last_purse(pip.book(), "receipt", "Harrow") == "cash");
  CHECK(last_purse(pip.book(), "receipt", "nobody known") == "cash");
  CHECK(last_purse(pip.book(), "buy", "") == "cash");
  CHECK_FALSE(last_purse(pip.book(), "sell", ""));
  CHECK(told(which_purse(pip.book(), "sell")) ==
        "sell: which purse does the money go through?\n1: cash (purse cash)\n2: card (purse card)");
}

TEST_CASE("what an entry moved is told purse by purse, into them above zero", "[answers]") {
  Pip pip;
  const auto moved = [&](book::EntryId entry) {
    const MovedThrough through = through_purses(pip.book(), entry);
    std::string all = through.in_several ? "several:" : "one:";
    for (const Moved& each : through.moved) all += " " + each.purse + " " + shown(each.amount);
    return all;
  };
  CHECK(moved(0) == "one:");
  CHECK(moved(1) == "one: cash 3000.00");
  CHECK(moved(2) == "one: cash -900.00");
  const book::EntryId both = pip.post(
      "{ do = \"owner in\", date = 2025-06-02, purse = \"card\", amount = 500.00 }, "
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Tessel\", number = \"1\", paid = { card = 4.00, "
      "cash = 5.00 "
      "}, total = 9.00, line = [{ what = \"clip\", amount = 9.00, kind = \"part\", to = \"pip\" }] }");
  CHECK(moved(both) == "several: card -4.00 cash -5.00");
  CHECK(moved(pip.post(
            "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"wash\", own = 1 }")) ==
        "one:");
}

TEST_CASE(
    "what one entry takes from a purse twice is one sum, and a purse left below nothing is told with it",
    "[answers]") {
  Pip pip;
  const book::EntryId second = pip.post(
      "{ do = \"buy\", date = 2025-06-03, vehicle = \"wren\", price = 2500.00, purse = \"cash\", fees = [{ "
      "name = "
      "\"title\", amount = 62.00 }] }");
  const MovedThrough through = through_purses(pip.book(), second);
  REQUIRE(through.moved.size() == 1);
  CHECK(shown(through.moved.front().amount) == "-2562.00");
  const std::vector<Moved> below = overdrawn(pip.book(), second);  // 3000 - 900 - 2562
  REQUIRE(below.size() == 1);
  CHECK(below.front().purse == "cash");
  CHECK(shown(below.front().amount) == "-462.00");
  CHECK(overdrawn(pip.book(), 2).size() == 1);
}

TEST_CASE("an even exchange moves nothing, and only a tin or a bank can be left below nothing", "[answers]") {
  Pip pip;
  const book::EntryId card = pip.post(
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Tessel\", number = \"1\", paid = \"card\", total "
      "= "
      "9.00, line = [{ id = \"clip\", what = \"clip\", amount = 9.00, kind = \"part\", to = \"pip\" }] }");
  CHECK(overdrawn(pip.book(), card).empty());  // a card is there to be below nothing
  CHECK(overdrawn(pip.book(), 2).empty());     // 2,100 are left
  pip.post("{ do = \"owner out\", date = 2025-06-06, purse = \"cash\", amount = 2200.00 }");
  CHECK(overdrawn(pip.book(), 1).empty());  // it brought money
  CHECK(overdrawn(pip.book(), 2).size() == 1);
}

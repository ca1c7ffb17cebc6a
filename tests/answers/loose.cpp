// What stands under no line of the budget, to be gone through one by one.
#include "answers/loose.h"

#include <fmt/format.h>

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

TEST_CASE("what stands under no line is listed with the lines that it may be, the close ones first",
          "[answers]") {
  Pip pip;
  pip.bought("set of seals", "30.00", "itemised = false", ", id = \"seals\"");
  pip.bought("wing", "50.00");
  pip.post(
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"wash\", own = 1 }, "
      "{ do = \"hours\", date = 2025-06-07, vehicle = \"pip\", operation = \"wash\", own = 2 }");
  const std::vector<Loose> loose = loose_of(pip.book(), "pip");
  REQUIRE(loose.size() == 2);
  CHECK(loose[0].thing.vehicle == "pip");
  CHECK(loose[0].thing.line == "seals");
  CHECK(loose[0].thing.heading.empty());
  CHECK(loose[0].day == Day(2025, 6, 5));
  CHECK(told(question_of(loose[0], Currency())) ==
        "under: 2025-06-05 set of seals, 30.00?\n3: set\n1: fees\n2: opening up\nn: under none of them\n"
        "q: enough for now");
  CHECK(loose[1].thing.operation == "wash");
  CHECK(told(question_of(loose[1], Currency())) ==
        "under: own hours: wash?\n4: operation 1\n5: operation 2\n6: opening up\n8: wing\nn: under none of "
        "them\n"
        "q: enough for now");
}

TEST_CASE("where no budget is there is nothing to go through", "[answers]") {
  book::Shop shop;
  shop.post(
      "{ do = \"buy\", date = 2025-06-02, vehicle = \"wren\", price = 900.00, purse = \"cash\" }, "
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"wren\", operation = \"wash\", own = 1 }");
  CHECK(loose_of(shop.book(), "wren").empty());
}

TEST_CASE("no more than nine lines are offered, what went back is not gone through, nor what others worked",
          "[answers]") {
  std::string parts = "{ name = \"set\", qty = 1, new = 118 }";
  for (int i = 1; i <= 9; ++i) parts += fmt::format(", {{ name = \"part {}\", qty = 1, new = 5 }}", i);
  Pip pip(appraisal::with(certain_job(), "{ name = \"set\", qty = 1, new = 118 }", parts));
  pip.post(
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Tessel\", number = \"1\", paid = \"cash\", total "
      "= "
      "30.00, line = [{ id = \"seals\", what = \"seals\", qty = 2, unit = 15.00, kind = \"part\", to = "
      "\"pip\" }] "
      "}, "
      "{ do = \"return\", date = 2025-06-06, line = \"seals\", qty = 1, goods = 15.00, purse = \"cash\" }, "
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"weld\", paid = 2, rate = 10, "
      "purse = "
      "\"cash\" }");
  const std::vector<Loose> loose = loose_of(pip.book(), "pip");
  std::string all;
  for (const Loose& each : loose) all += each.what + " " + shown(each.amount) + "\n";
  CHECK(all == "seals 30.00\nweld 20.00\n");
  REQUIRE(!loose.empty());
  CHECK(loose[0].may_be.size() == 9);
}

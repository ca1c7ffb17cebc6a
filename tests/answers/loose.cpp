// What stands under no line of the budget, to be gone through one by one.
#include "answers/loose.h"

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

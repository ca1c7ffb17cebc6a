// What was recorded and says nothing of its place, though it is close to a line.
#include "answers/unplaced.h"

#include "answers/budget.h"
#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

TEST_CASE("what was recorded is told where it is close to a line and says nothing, and is put there",
          "[answers]") {
  Pip pip;
  pip.bought("set of seals", "30.00", "itemised = false", ", id = \"seals\"");
  pip.bought("set of clips", "3.00", "itemised = false", ", for = \"none\"");
  pip.bought("rope", "3.00");
  pip.post(
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"wing, left\", own = 1 }, "
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"wing\", own = 1 }");
  const std::vector<Unplaced> found = unplaced(pip.book(), 1, 7);
  REQUIRE(found.size() == 2);
  CHECK(found[0].tag == "pip");
  CHECK(found[0].words == "set of seals");
  CHECK(found[0].paper_line == "seals");
  CHECK(found[0].entry == 3);
  CHECK(told(question_of(found[0])) ==
        "entry 3: \"set of seals\": is that line 3, set?\n"
        "y: it stands under that line (for 3)\nn: it stands under none (for none)");
  CHECK(found[1].words == "wing, left");
  CHECK(found[1].paper_line.empty());
  CHECK(found[1].entry == 6);
  CHECK(found[1].placing.close == "wing");
  CHECK(unplaced(pip.book(), 4, 5).empty());

  pip.record([&](book::Recording& recording) {
    for (const Unplaced& each : found) place(recording, each);
  });
  const auto budget = budget_of(pip.book(), "pip");
  REQUIRE(budget);
  for (const BudgetLine& line : budget->lines)
    if (line.estimate.what == "set") CHECK(shown(line.booked) == "30.00");
  for (const BudgetWork& work : budget->work)
    if (work.estimate.operation == "wing") CHECK(work.booked == Hours::parse("2"));
}

TEST_CASE("what says its place, goes back, or belongs to a car without a budget is not asked about",
          "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"wing, left\", own = 1, for = "
      "\"none\" "
      "}, "
      "{ do = \"buy\", date = 2025-06-04, vehicle = \"teal\", price = 100.00, purse = \"cash\" }, "
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Tessel\", number = \"1\", paid = \"cash\", total "
      "= "
      "60.00, line = [{ id = \"seals\", what = \"set of seals\", amount = 30.00, core = 10.00, kind = "
      "\"part\", to = "
      "\"pip\", for = \"none\" }, { what = \"set of clips\", amount = 20.00, kind = \"part\", to = \"teal\" "
      "}] }, "
      "{ do = \"receipt\", date = 2025-06-07, supplier = \"Tessel\", number = \"2\", paid = \"cash\", total "
      "= "
      "-30.00, line = [{ what = \"set of seals\", amount = -30.00, return_of = \"seals\" }] }");
  CHECK(unplaced(pip.book(), 1, 9).empty());
}

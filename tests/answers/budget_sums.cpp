// A budget added up by heading and as a whole, and what stands in no line of it.
#include "answers/budget_sums.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

TEST_CASE("a budget adds up by its headings, and what stands under none is in the whole alone", "[answers]") {
  Pip pip;
  pip.bought("set", "120.00", "itemised = false", ", id = \"set\"");
  pip.bought("jack", "30.00", "itemised = false", ", id = \"jack\"");
  pip.bought("rope", "8.00", "itemised = false", ", for = \"garage\"");
  pip.post(
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"operation 1\", own = 3 }, "
      "{ do = \"hours\", date = 2025-06-06, vehicle = \"pip\", operation = \"wash\", own = 1.5 }");
  const auto budget = budget_of(pip.book(), "pip");
  REQUIRE(budget);

  std::string headings;
  for (const HeadingSum& each : by_heading(*budget))
    headings += fmt::format("{} {} {} {}{}\n", each.heading, shown(each.expected), shown(each.booked),
                            shown(each.to_come), each.in_estimate ? "" : " not in it");
  CHECK(headings ==
        "fees 100.00 0.00 100.00\n"
        "opening up 10.00 0.00 10.00\n"
        "reseal 118.00 120.00 0.00\n"
        "fixes 55.00 0.00 55.00\n"
        "garage 0.00 8.00 0.00 not in it\n");

  const BudgetSums sums = sums_of(*budget);
  CHECK(shown(sums.expected) == "283.00");
  CHECK(shown(sums.booked) == "158.00");  // 120 + 8 under headings, 30 under none
  CHECK(shown(sums.under_no_heading) == "30.00");
  CHECK(sums.expected_hours == 13);
  CHECK(sums.all_hours == Hours::parse("4.5"));
  CHECK(sums.hours_under_no_heading == Hours::parse("1.5"));
}

TEST_CASE("what is not in the estimate stands the largest first, less what went back of it", "[answers]") {
  Pip pip;
  pip.bought("rope", "8.00", "itemised = false", ", for = \"garage\"");
  pip.bought("jack", "30.00", "supplier = \"Tessel\", number = \"1\"", ", id = \"jack\"");
  pip.post(
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Tessel\", number = \"2\", paid = \"cash\", total "
      "= 44.00, "
      "line = [{ id = \"lamp\", what = \"lamp\", qty = 2, amount = 44.00, kind = \"part\", to = \"pip\" }] "
      "}, "
      "{ do = \"return\", date = 2025-06-06, line = \"lamp\", qty = 1, goods = 22.00, purse = \"cash\" }");
  const auto budget = budget_of(pip.book(), "pip");
  REQUIRE(budget);
  std::string places, kept;
  for (const PlacedMoney* money : not_in_estimate(*budget))
    places += money->what + " " + shown(-money->amount) + "\n";
  CHECK(places == "lamp 44.00\njack 30.00\nrope 8.00\nlamp went back -22.00\n");
  for (const KeptOutside& each : kept_outside(*budget)) kept += each.what + " " + shown(each.cost) + "\n";
  CHECK(kept == "jack 30.00\nlamp 22.00\nrope 8.00\n");
}

// Where a car's money went, and how it stood from day to day; worked out by hand.
#include "answers/where_it_went.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

void sold_at_a_profit(Pip& pip) {
  pip.bought("set", "118.00", "supplier = \"Tessel\", number = \"7\"");
  pip.post(
      "{ do = \"recover\", date = 2025-06-07, vehicle = \"pip\", what = \"seat\", amount = 30.00, purse = "
      "\"cash\" }, "
      "{ do = \"transfer\", date = 2025-06-08, from = \"pip\", to = \"wren\", what = \"lamp\", amount = 5.00 "
      "}, "
      "{ do = \"transfer\", date = 2025-06-08, from = \"wren\", to = \"pip\", what = \"lamp\", amount = 5.00 "
      "}, "
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1500.00, purse = \"cash\", costs = [{ "
      "name = "
      "\"advert\", amount = 20.00 }] }");
}

}  // namespace

TEST_CASE("a car's money is told by kind, the sale first, and what comes to nothing is left out",
          "[answers]") {
  Pip pip;
  sold_at_a_profit(pip);
  std::string all;
  for (const OfKind& each : where_it_went(pip.book(), "pip"))
    all += std::to_string(static_cast<int>(each.kind)) + " " + shown(each.amount) + "\n";
  using Kind = figures::MoneyKind;
  const auto row = [](Kind kind, const char* amount) {
    return std::to_string(static_cast<int>(kind)) + " " + amount + "\n";
  };
  CHECK(all == row(Kind::sale, "1500.00") + row(Kind::purchase, "-900.00") + row(Kind::part, "-118.00") +
                   row(Kind::recovered, "30.00") + row(Kind::selling_cost, "-20.00"));
}

TEST_CASE("the cash in a car stands day by day at all that came and went so far", "[answers]") {
  Pip pip;
  sold_at_a_profit(pip);
  std::string all;
  for (const StoodAt& each : cash_over_time(pip.book(), "pip"))
    all += each.day.iso() + " " + shown(each.sum) + "\n";
  CHECK(
      all ==
      "2025-06-02 -900.00\n2025-06-05 -1018.00\n2025-06-07 -988.00\n2025-06-08 -988.00\n2025-06-20 492.00\n");
}

TEST_CASE("what a heading came to beyond what was expected is over, less is below zero", "[answers]") {
  Pip pip;
  pip.bought("set", "130.00", "supplier = \"Tessel\", number = \"7\"");  // expected: 118
  pip.bought("rope", "3.00", "supplier = \"Tessel\", number = \"8\"");
  std::string all;
  for (const Variance& each : variances(*budget_at_purchase(pip.book(), "pip")))
    all += each.heading + ": " + (each.expected ? shown(*each.expected) : "-") + " " + shown(each.came_to) +
           " " + shown(each.over) + "\n";
  CHECK(all ==
        "fees: 100.00 0.00 -100.00\n"
        "opening up: 10.00 0.00 -10.00\n"
        "reseal: 118.00 130.00 12.00\n"
        "fixes: 55.00 0.00 -55.00\n"
        ": - 3.00 3.00\n");
}

TEST_CASE("a deposit that is to come back is no money of the car's, and neither is its coming back",
          "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Tessel\", number = \"1\", paid = \"cash\", total "
      "= 45.00, "
      "line = [{ id = \"pump\", what = \"pump\", unit = 30.00, core = 15.00, kind = \"part\", to = \"pip\" "
      "}] }");
  Money all;
  for (const OfKind& each : where_it_went(pip.book(), "pip")) {
    all += each.amount;
    CHECK(each.kind != figures::MoneyKind::due_back);
  }
  CHECK(shown(all) == "-930.00");
  CHECK(shown(cash_over_time(pip.book(), "pip").back().sum) == "-930.00");
}

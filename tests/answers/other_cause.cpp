// What a second cause does to the first one noted.
#include "answers/other_cause.h"

#include "answers/brindle.h"
#include "answers/budget.h"
#include "figures/every_budget.h"

using namespace nonrunner;
using namespace nonrunner::answers;
using Catch::Matchers::Contains;

TEST_CASE("a second cause says what the first one needs no more, and how both are kept", "[answers]") {
  Brindle car("second-cause");
  car.buy();
  CHECK_THAT(car.said({"note", "brindle", "weeping", "--cause", "1", "--date", "2026-04-06"}),
             !Contains("counts no more"));
  const std::string said = car.said({"note", "brindle", "gasket too", "--cause", "head gasket leaks"});
  CHECK_THAT(said, Contains("\"water pump or radiator\", found on 2026-04-06, counts no more; what only "
                            "\"water pump or radiator\" needs is not to come: water pump with gasket, "
                            "thermostat, coolant, strip and change the pump (118.00 and 3 own hours); if it "
                            "is there as well, plan that by hand: nonrunner plan brindle AMOUNT NAME"));
  // The same cause said again takes nothing off.
  CHECK_THAT(car.said({"note", "brindle", "gasket again", "--cause", "head gasket leaks"}),
             !Contains("counts no more"));
  const double before = std::stod(car.to_come());
  car.run({"plan", "brindle", "70", "water pump with gasket"});
  REQUIRE(car.status == 0);
  CHECK(std::stod(car.to_come()) == before + 70);
}

TEST_CASE("a cause noted for an earlier day than the one before leaves that in force, and says so",
          "[answers]") {
  Brindle car("earlier-cause");
  car.buy();
  car.run({"note", "brindle", "gasket", "--cause", "head gasket leaks", "--date", "2026-04-10"});
  CHECK_THAT(
      car.said({"note", "brindle", "weeping", "--cause", "1", "--date", "2026-04-07"}),
      Contains("\"head gasket leaks\" was found on 2026-04-10, a later day, and still counts; what only "
               "\"water pump or radiator\" needs is not to come"));
  const book::Book book = book::Book::open(car.book());
  const auto other =
      other_cause(book, {Day(2026, 4, 11), "brindle", "else", {{book::fact::cause, "something else", ""}}});
  REQUIRE(other);
  CHECK(other->counts == "something else");
  CHECK(other->counts_no_more == "head gasket leaks");
  CHECK_FALSE(other->lines.empty());
  // What is needed whatever the cause is stays.
  CHECK(std::ranges::count(other->lines, figures::every_budget::fees) == 0);
  CHECK(other->to_come == budget_of(book, "brindle")->cash_to_come -
                              budget_of(book, "brindle", "something else")->cash_to_come);
  CHECK_FALSE(other_cause(book, {Day(2026, 4, 11), "brindle", "no cause", {}}));
}

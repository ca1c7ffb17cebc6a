// What the shop's own cars say, as a struct: two cars whose figures are worked out by hand.
#include "answers/learn.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;
using Catch::Matchers::WithinAbs;

TEST_CASE("without a car of one's own only common practice speaks", "[answers]") {
  const book::Shop shop;
  const Learnt none = learnt(const_cast<book::Shop&>(shop).book(), Day(2025, 6, 30));
  CHECK(none.currency.code == "USD");
  CHECK(none.own.cars.empty());
  CHECK(none.tried.cars.empty());
  CHECK(none.pace.figures.own.number == 0);
  CHECK_THAT(none.pace.figures.mean, WithinAbs(none.pace.prior.points.mean(), 1e-12));
  CHECK(none.readying.number == 0);
  CHECK(none.looking.number == 0);
  CHECK(none.own_hours == 0);
}

TEST_CASE("a sold car counts from the day after its sale, with its hours, its price and its readying",
          "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }, "
      "{ do = \"hours\", date = 2025-06-05, vehicle = \"pip\", operation = \"operation 1\", own = 10.5 }, "
      "{ do = \"hours\", date = 2025-06-05, vehicle = \"pip\", operation = \"wash\", own = 1 }");
  pip.bought("polish", "12.00");  // five days before the advert, under no line
  pip.bought("mats", "20.00", "itemised = false", ", for = \"readying\"");
  pip.post(
      "{ do = \"advertised\", date = 2025-06-10, vehicle = \"pip\", price = 2000.00 }, "
      "{ do = \"selling cost\", date = 2025-06-11, vehicle = \"pip\", what = \"advert\", amount = 5.00, "
      "purse = "
      "\"cash\" }, "
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1800.00, purse = \"cash\" }");
  CHECK(learnt(pip.book(), Day(2025, 6, 20)).own.cars.empty());
  const Learnt learned = learnt(pip.book(), Day(2025, 6, 21));
  REQUIRE(learned.own.cars.size() == 1);
  CHECK(learned.pace.figures.own.number == 1);
  CHECK_THAT(learned.pace.figures.own.mean, WithinAbs(1.5, 1e-12));  // 10.5 of 7
  CHECK(learned.booked_hours == 10.5);
  CHECK(learned.own_hours == 11.5);
  CHECK_THAT(learned.realised.figures.own.mean, WithinAbs(0.9, 1e-12));
  CHECK_THAT(learned.days.figures.own.mean, WithinAbs(10, 1e-12));
  CHECK(learned.readying.number == 1);
  CHECK_THAT(learned.readying.mean, WithinAbs(12 + 20 + 5, 1e-9));
}

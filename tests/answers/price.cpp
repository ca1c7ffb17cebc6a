// What to advertise at, as a struct: the floor and what is still to come worked out by hand.
#include "answers/price.h"

#include "answers/car_of_small_job.h"

using namespace nonrunner;
using namespace nonrunner::answers;
using Catch::Matchers::WithinAbs;

TEST_CASE("the floor brings back what was paid and what is still to come", "[answers]") {
  book::Shop shop;
  keep_job(shop, certain_job());
  shop.post(
      "{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 400.00, purse = \"cash\" }, "
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"oil in the coolant\", cause = "
      "\"gasket\" }");
  const AskingPrice answer = asking_price(shop.book(), "pip", "", Day(2025, 6, 4));
  // Fees 100, parts 118, the wing 55, and 40 of selling.
  CHECK(answer.to_come == book::usd("313.00"));
  CHECK(answer.floor == book::usd("713.00"));
  CHECK_THAT(answer.hours_to_come, WithinAbs(11, 1e-9));
  CHECK_THAT(answer.loss_at(600), WithinAbs(113, 1e-9));
  CHECK(answer.first == Day(2025, 6, 4));
  CHECK(answer.likeliest.empty());
  CHECK(answer.dearest.empty());
  CHECK(answer.doubts.empty());
  CHECK(answer.stood.empty());
  CHECK_FALSE(answer.advertised);
  CHECK_FALSE(answer.part_out);
  REQUIRE(!answer.plan.stages.empty());
  CHECK(answer.take_from >= answer.plan.stages.front().take_from);
}

TEST_CASE("what it stood at counts by its days, and what may keep it off the road is a doubt", "[answers]") {
  book::Shop shop;
  keep_job(shop, appraisal::small_job_with("takes_off = 30\n", "takes_off = 30\nbars_road = true\n"));
  shop.post(
      "{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 400.00, purse = \"cash\" }, "
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"oil in the coolant\", cause = "
      "\"gasket\" }, { do = \"advertised\", date = 2025-06-10, vehicle = \"pip\", price = 3200.00 }, "
      "{ do = \"advertised\", date = 2025-06-17, vehicle = \"pip\", price = 3000.00 }");
  const AskingPrice answer = asking_price(shop.book(), "pip", "", Day(2025, 6, 20));
  REQUIRE(answer.stood.size() == 2);
  CHECK(answer.stood[0].price == 3200);
  CHECK(answer.stood[0].days == 7);
  CHECK(answer.stood[1].price == 3000);
  CHECK(answer.stood[1].days == 3);
  CHECK(answer.advertised == book::usd("3000.00"));
  REQUIRE(answer.doubts.size() == 1);
  CHECK(answer.doubts[0].kind == Doubt::Kind::bars_road);
  CHECK(answer.doubts[0].name == "rot");
  CHECK(answer.doubts[0].chance == 0.2);
  CHECK(answer.doubts[0].appraised == Day(2025, 6, 1));
}

TEST_CASE("a price is for a car that is owned", "[answers]") {
  book::Shop shop;
  keep_job(shop, certain_job());
  CHECK(book::Shop::said([&] { asking_price(shop.book(), "pip", "", Day(2025, 6, 4)); }) ==
        "price: pip is considered, expected a car that is owned and not sold yet");
}

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
  shop.post(
      "{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 400.00, purse = \"cash\" }, "
      "{ do = \"part out\", date = 2025-06-03, vehicle = \"pip\", still_brings = 900.00 }");
  CHECK(book::Shop::said([&] { asking_price(shop.book(), "pip", "", Day(2025, 6, 4)); }) ==
        "price: pip is in pieces since 2025-06-03, expected a car that is sold whole");
}

namespace {

book::Shop& owned(book::Shop& shop, const std::string& job, const std::string& more = {}) {
  keep_job(shop, job);
  shop.post("{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 400.00, purse = \"cash\" }" +
            more);
  return shop;
}
const std::string gasket =
    ", { do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }";
const std::string at_2900 =
    ", { do = \"advertised\", date = 2025-06-04, vehicle = \"pip\", price = 2900.00 }";

AskingPrice price_of(const std::string& job, const std::string& more = gasket) {
  book::Shop shop;
  return asking_price(owned(shop, job, more).book(), "pip", "", Day(2025, 6, 24));
}

}  // namespace

TEST_CASE("the plan is made of what the car would fetch ready, of the days of a sale and of what a day costs",
          "[answers]") {
  using appraisal::with;
  std::string job = with(certain_job(), "days = 10\n", "days = 9.5\nrate = 0.05\nrealised = 1.1\n");
  job = with(job, "holding_per_day = 3\n", "holding_per_day = 3\nmoney_rate = 0.1\n");
  const AskingPrice answer = price_of(job);
  // 3,000 less the mark of 50 and the 10 that stay off; within 9.5 days, so on the tenth; 400 are carried.
  resale::Market market;
  market.fetches.assign(200, 2940);
  market.sold_on_day.assign(10, 0);
  market.sold_on_day[9] = 1;
  market.per_day = 3 + 0.1 * 400 / 365;
  market.rate = 0.05;
  const resale::AskingPlan plan = resale::asking_plan(market);
  CHECK_THAT(answer.plan.expected_net, WithinAbs(plan.expected_net, 1e-6));
  CHECK_THAT(answer.plan.expected_got, WithinAbs(plan.expected_got, 1e-6));
  CHECK_THAT(answer.plan.expected_days, WithinAbs(plan.expected_days, 1e-6));
  CHECK(answer.realised == 1);  // bidding above what is asked counts as getting it
  CHECK(answer.commission == 0.05);
}

TEST_CASE("a car that stood at a price unsold is expected to fetch less", "[answers]") {
  const std::string job = appraisal::with(certain_job(), "sound = 3000", "sound = [2500, 3000, 3500]");
  CHECK(price_of(job, gasket + at_2900).plan.expected_got < price_of(job).plan.expected_got - 10);
}

TEST_CASE(
    "a trouble is a doubt where it may bar the road, and one that is there where it makes another course "
    "best",
    "[answers]") {
  using appraisal::small_job_with;
  const auto rot = [](const char* value) {
    return gasket +
           ", { do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"looked\", trouble = "
           "[\"rot=" +
           std::string(value) + "\"] }";
  };
  CHECK(price_of(appraisal::small_job).doubts.empty());
  CHECK(price_of(small_job_with("takes_off = 30\n", "takes_off = 30\nbars_road = true\n"), rot("not there"))
            .doubts.empty());
  const AskingPrice dear = price_of(small_job_with("cash = 150", "cash = 2900"), rot("there"));
  REQUIRE(dear.doubts.size() == 1);
  CHECK(dear.doubts[0].kind == Doubt::Kind::other_course);
  CHECK(dear.doubts[0].name == "sell as found");  // 500 - 100 - 40 - 30; scrap is 310
  // Neither that nor scrap is on offer: what the appraisal means to do is nothing.
  const std::string no_other =
      appraisal::with(appraisal::with(small_job_with("cash = 150", "cash = 2900"), "found = 500\n", ""),
                      "[scrap]\nvalue = 310\n", "");
  const AskingPrice nothing = price_of(no_other, rot("there"));
  REQUIRE(nothing.doubts.size() == 1);
  CHECK(nothing.doubts[0].name == "do nothing");
}

TEST_CASE("below what another course leaves from here an offer is not taken", "[answers]") {
  using appraisal::with;
  std::string job = with(certain_job(), "pace = 1\n", "pace = 1.5\nbay_per_day = 2\n");
  job = with(job, "costs = 40\n", "costs = 40\nrate = 0.05\n");
  // Parts 118, the wing 55, fees 100, selling 40, and (9 + 2) x 1.5 hours at 20 are still to come.
  const double still = 313 + 16.5 * 20;
  const AskingPrice pieces = price_of(job + "[part_out]\nproceeds = 4000\ncosts = 100\nhours = 10\n");
  REQUIRE(pieces.part_out);
  // An hour costs a piece of a week as well: 20 + 7 x 3 / 14.
  CHECK_THAT(*pieces.part_out, WithinAbs(4000 - 100 - 10 * 1.5 * 21.5, 1e-9));
  CHECK_THAT(pieces.take_from, WithinAbs((*pieces.part_out + still) / 0.95, 1e-9));
  CHECK(pieces.better_below == appraisal::Course::part_out);

  const AskingPrice scrap = price_of(with(job, "value = 310", "value = 6000\ncosts = 50"));
  CHECK_THAT(scrap.take_from, WithinAbs((5950 + still) / 0.95, 1e-9));
  CHECK(scrap.better_below == appraisal::Course::scrap);

  std::string found = with(appraisal::small_job, "found = 500", "found = 5000");
  found = with(found, "holding_per_day = 3\n", "holding_per_day = 3\nbay_per_day = 2\n");
  found = with(found, "costs = 40\n", "costs = 40\nrate = 0.05\n");
  const AskingPrice as_found = price_of(found);
  // A buyer finds the rot in one case of five: 100 less. 10 days at 3 + 2.
  const double leaves = (5000 - 0.2 * 100) * 0.95 - 40 - 10 * 5;
  CHECK_THAT(as_found.take_from, WithinAbs((leaves + 313 + 11 * 20) / 0.95, 1e-9));
  CHECK(as_found.better_below == appraisal::Course::as_found);
  // An advert of 15 that is paid is to come on neither way.
  const AskingPrice advertised = price_of(
      found, gasket +
                 ", { do = \"selling cost\", date = 2025-06-04, vehicle = \"pip\", amount = 15.00, purse = "
                 "\"cash\", what = \"advert\" }");
  CHECK_THAT(advertised.take_from, WithinAbs((leaves + 15 + 313 - 15 + 11 * 20) / 0.95, 1e-9));
  // Ready, it is as it was found no more.
  CHECK_FALSE(price_of(found, gasket + at_2900).better_below);
}

TEST_CASE("where no cause is noted the price says which it took, and how likely that is", "[answers]") {
  const AskingPrice answer = price_of(appraisal::small_job, "");
  CHECK(answer.likeliest == "gasket");
  CHECK_THAT(answer.likeliest_chance, WithinAbs(0.75, 1e-12));
}

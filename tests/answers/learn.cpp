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

TEST_CASE("readying is what stands under no line in the week before the advert, and what is put under it",
          "[answers]") {
  Pip pip;
  const auto bought = [&](const std::string& day, const std::string& what, const std::string& amount,
                          const std::string& kind) {
    pip.post("{ do = \"receipt\", date = 2025-06-" + day + ", paid = \"cash\", total = " + amount +
             ", itemised = false, line = [{ what = \"" + what + "\", amount = " + amount + ", kind = \"" +
             kind + "\", to = \"pip\" }] }");
  };
  bought("10", "touch-up", "1.00", "consumable");  // eight days before: no readying
  bought("11", "mats", "2.00", "part");            // seven
  bought("17", "valet", "4.00", "sublet");
  bought("17", "cleaner", "8.00", "consumable");
  bought("18", "plates", "16.00", "fee");
  bought("18", "set", "118.00", "part");  // a line of its appraisal
  bought("19", "bulb", "32.00", "part");  // after it
  pip.post("{ do = \"advertised\", date = 2025-06-18, vehicle = \"pip\", price = 2000.00 }");
  pip.post("{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1800.00, purse = \"cash\" }");
  const Learnt learned = learnt(pip.book(), Day(2025, 6, 21));
  CHECK(learned.readying.number == 1);
  CHECK_THAT(learned.readying.mean, WithinAbs(2 + 4 + 8 + 16, 1e-9));
}

TEST_CASE("a car that was parted out was not made ready, and one that was left cost what looking at it cost",
          "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"advertised\", date = 2025-06-10, vehicle = \"pip\", price = 2000.00 }, "
      "{ do = \"selling cost\", date = 2025-06-11, vehicle = \"pip\", what = \"advert\", amount = 5.00, "
      "purse = \"cash\" }, "
      "{ do = \"part out\", date = 2025-06-12, vehicle = \"pip\", still_brings = 100.00 }, "
      "{ do = \"write off\", date = 2025-06-13, vehicle = \"pip\" }, "
      "{ do = \"receipt\", date = 2025-06-14, paid = \"cash\", total = 15.00, itemised = false, line = "
      "[{ what = \"train\", amount = 15.00, kind = \"fee\", to = \"tern\" }] }, "
      "{ do = \"pass\", date = 2025-06-15, vehicle = \"tern\" }");
  const Learnt learned = learnt(pip.book(), Day(2025, 6, 16));
  CHECK(learned.own.cars.size() == 1);
  CHECK(learned.readying.number == 0);
  CHECK(learned.looking.number == 1);
  CHECK(learned.looking.mean == 15);
}

TEST_CASE("hours that could not be compared are left out, those under no operation of its appraisal are not",
          "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }, "
      "{ do = \"hours\", date = 2025-06-05, vehicle = \"pip\", operation = \"wash\", own = 3 }, "
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1800.00, purse = \"cash\" }, "
      // Never appraised: nothing to compare with.
      "{ do = \"buy\", date = 2025-06-02, vehicle = \"tern\", price = 300.00, purse = \"cash\" }, "
      "{ do = \"hours\", date = 2025-06-05, vehicle = \"tern\", operation = \"wash\", own = 4 }, "
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"tern\", price = 500.00, purse = \"cash\" }");
  const Learnt learned = learnt(pip.book(), Day(2025, 6, 21));
  CHECK(learned.own_hours == 3);
  CHECK(learned.booked_hours == 0);
}

TEST_CASE("from few operations a pace below a quarter counts as a quarter", "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }, "
      "{ do = \"hours\", date = 2025-06-05, vehicle = \"pip\", operation = \"operation 1\", own = 0.7 }, "
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1800.00, purse = \"cash\" }");
  const Learnt learned = learnt(pip.book(), Day(2025, 6, 21));
  REQUIRE(learned.own.cars.size() == 1);
  CHECK_THAT(*learned.own.cars[0].pace, WithinAbs(0.1, 1e-12));  // 0.7 of 7
  CHECK(learned.own.least_pace() == 0.25);
  CHECK(learned.pace.points.low >= 0.25);
}

// Go on or stop, as a struct: the courses of a car whose needs are certain, worked out by hand.
#include "answers/go_on.h"

#include "answers/car_of_small_job.h"

using namespace nonrunner;
using namespace nonrunner::answers;
using Catch::Matchers::WithinAbs;

namespace {

book::Shop& bought(book::Shop& shop) {
  keep_job(shop, certain_job());
  shop.post(
      "{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 400.00, purse = \"cash\" }, "
      "{ do = \"hours\", date = 2025-06-03, vehicle = \"pip\", operation = \"opening up\", own = 2.5 }, "
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"oil in the coolant\", cause = "
      "\"gasket\" }");
  return shop;
}

const appraisal::CourseFromHere& course(const GoOnAnswer& answer, const std::string& name) {
  for (const appraisal::CourseFromHere& each : answer.result.courses)
    if (each.name == name) return each;
  FAIL("no course " << name);
  throw std::logic_error(name);
}

}  // namespace

TEST_CASE("every course counts from here: what was spent and worked is left out of all of them",
          "[answers]") {
  book::Shop shop;
  const GoOnAnswer answer = go_on(bought(shop).book(), {"pip", "", {}, {}}, shop.today);
  CHECK(answer.cause == "gasket");
  CHECK(answer.spent == book::usd("400.00"));
  CHECK(answer.worked.shown() == "2.5");
  CHECK(answer.from_book);
  CHECK(answer.can_be_put_right());
  CHECK_FALSE(answer.not_put_right);
  CHECK(answer.not_needed.empty());

  const auto& right = course(answer, "put right");
  CHECK_THAT(right.mean.brings, WithinAbs(3000 - 50 - 10, 1e-9));
  CHECK_THAT(right.mean.selling, WithinAbs(40, 1e-9));
  CHECK_THAT(right.mean.spend, WithinAbs(118 + 55, 1e-9));
  CHECK_THAT(right.mean.hours, WithinAbs(11, 1e-9));
  CHECK_THAT(right.mean.days, WithinAbs(11 / 14.0 * 7 + 4 + 10, 1e-9));
  CHECK_THAT(right.value, WithinAbs(2940 - 40 - 173 - 11 * 20 - 19.5 * 3, 1e-9));
  CHECK_THAT(course(answer, "sell as found").value, WithinAbs(500 - 40 - 10 * 3, 1e-9));
  CHECK_THAT(course(answer, "scrap").value, WithinAbs(310, 1e-9));
  CHECK(answer.result.courses.front().name == "put right");
  CHECK(answer.result.advice == 0);
  CHECK_THAT(answer.result.ahead, WithinAbs(right.value - 430, 1e-9));
}

TEST_CASE("a correction that can fail is one of several ways, and what follows it has its own hours",
          "[answers]") {
  // Putting right: 0.5 x 1,300 + 0.5 x 1,500 - 150 - 10 h x 20 - 0.5 x 40 h x 20 = 650; in pieces 1,500 - 40 h x 20 = 700.
  const std::string text = R"([vehicle]
tag = "pip"
[deal]
asking = 200
[shop]
hour = 20
pace = 1
hours_per_week = 10
[value]
sound = 1300
[[cause]]
name = "gasket"
odds = 1
found = 300
correction = "gasket"
[[correction]]
name = "gasket"
hours = 10
works = 0.5
parts = [{ name = "set", qty = 1, new = 150 }]
[part_out]
proceeds = 1500
hours = 40
)";
  book::Shop shop;
  keep_job(shop, text);
  shop.post(
      "{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 200.00, purse = \"cash\" }, "
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }");
  const GoOnAnswer answer = go_on(shop.book(), {"pip", "", {}, {}}, shop.today);
  CHECK(answer.result.courses.front().name == "part out");
  CHECK_THAT(course(answer, "part out").value, WithinAbs(700, 1e-9));
  CHECK_THAT(course(answer, "put right").value, WithinAbs(650, 1e-9));
  CHECK_THAT(course(answer, "put right").mean.hours, WithinAbs(30, 1e-9));
  // What is booked of it is sunk, and what comes after it is not: now it leads by 100.
  shop.post("{ do = \"hours\", date = 2025-06-04, vehicle = \"pip\", operation = \"work\", own = 7.5 }");
  const GoOnAnswer begun = go_on(shop.book(), {"pip", "", {}, {}}, shop.today);
  CHECK(begun.result.courses.front().name == "put right");
  CHECK_THAT(course(begun, "put right").value, WithinAbs(800, 1e-9));
}

TEST_CASE("where the price held the aims only by another course than the one that is best now, that is said",
          "[answers]") {
  const std::string text = R"([vehicle]
tag = "pip"
[deal]
asking = 700
[aims]
loss_chance = 0.3
[value]
sound = 2000
[[cause]]
name = "head gasket"
odds = 1
found = 500
correction = "head"
[[correction]]
name = "head"
works = 0.5
sublet = [{ name = "shop", price = 600 }]
)";
  const auto paid = [&](const std::string& price) {
    book::Shop shop;
    keep_job(shop, text);
    shop.post(
        "{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = " + price +
        ", purse = \"cash\" }, { do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", "
        "cause = \"head gasket\" }");
    return go_on(shop.book(), {"pip", "", {}, {}}, shop.today);
  };
  // Put right it brings 0.5 x 2,000 + 0.5 x 500 - 600 = 650, and loses where it fails; as found 500 for certain.
  CHECK(paid("500.00").result.courses.front().name == "put right");
  CHECK(paid("500.00").price_rests_on == appraisal::Course::as_found);
  CHECK_FALSE(paid("600.00").price_rests_on);  // no policy held there
}

TEST_CASE("courses of one's own take the place of the book's, also of a car that is sold", "[answers]") {
  book::Shop shop;
  bought(shop).post(
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1450.00, purse = \"cash\" }");
  CHECK(book::Shop::said([&] {
          go_on(shop.book(), {"pip", "", {}, {}}, shop.today);
        }) ==
        "go-on: pip was sold on 2025-06-20; there is nothing left to decide, expected a --date before that");
  appraisal::OpenCourses own;
  own.hour = 20;
  own.courses = {{"mend", {{1, 1000, 0, 300, 0, 10, 0}}}, {"leave", {{1, 450, 0, 0, 0, 0, 0}}}};
  const GoOnAnswer answer = go_on(shop.book(), {"pip", "", {}, own}, shop.today);
  CHECK_FALSE(answer.from_book);
  CHECK_FALSE(answer.can_be_put_right());
  CHECK(answer.result.courses.front().name == "mend");
  CHECK(answer.result.courses.front().value == 500);
}

// Go on or stop, as a struct: the courses of a car whose needs are certain, worked out by hand.
#include "answers/go_on.h"

#include "answers/car_of_small_job.h"
#include "answers/known.h"
#include "answers/price.h"
#include "book/ledger/settings.h"

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

// A car of this job whose cause is noted, with whatever came after.
GoOnAnswer noted(const std::string& job, const std::string& more = {}) {
  book::Shop shop;
  keep_job(shop, job);
  shop.post(
      "{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 400.00, purse = \"cash\" }, "
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }" +
      more);
  return go_on(shop.book(), {"pip", "", {}, {}}, shop.today);
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

TEST_CASE("an advert that is paid is no cost of selling any more, on either way of selling it whole",
          "[answers]") {
  const GoOnAnswer part =
      noted(certain_job() + "[part_out]\nproceeds = 900\ncosts = 30\n",
            ", { do = \"selling cost\", date = 2025-06-04, vehicle = \"pip\", amount = 15.00, "
            "purse = \"cash\", what = \"advert\" }");
  CHECK_THAT(course(part, "put right").mean.selling, WithinAbs(25, 1e-9));
  CHECK_THAT(course(part, "sell as found").mean.selling, WithinAbs(25, 1e-9));
  CHECK_THAT(course(part, "part out").mean.selling, WithinAbs(30, 1e-9));
  // More than was expected is nothing that comes back.
  const GoOnAnswer all =
      noted(certain_job(),
            ", { do = \"selling cost\", date = 2025-06-04, vehicle = \"pip\", amount = 55.00, "
            "purse = \"cash\", what = \"advert\" }");
  CHECK_THAT(course(all, "put right").mean.selling, WithinAbs(0, 1e-9));
}

TEST_CASE("from the purchase on every answer counts an hour at what the shop says it must earn",
          "[answers]") {
  const std::string job = certain_job() + "[part_out]\nproceeds = 900\nhours = 10\n";
  book::Shop shop;
  keep_job(shop, job);
  shop.record([](book::Recording& recording) { book::set(recording, "hour", "50"); });
  CHECK(known_of(shop.book(), "pip")->job.shop.hour == 20);  // not bought yet: by its file
  shop.post(
      "{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 400.00, purse = \"cash\" }, "
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", cause = \"gasket\" }");
  CHECK(known_of(shop.book(), "pip")->job.shop.hour == 50);
  CHECK(known_of(shop.book(), "pip", Day(2025, 6, 1))->job.shop.hour == 20);
  const GoOnAnswer here = go_on(shop.book(), {"pip", "", {}, {}}, shop.today);
  const AskingPrice price = asking_price(shop.book(), "pip", "", shop.today);
  CHECK_THAT(course(here, "part out").value, WithinAbs(900 - 10 * 50 - 5 * 3, 1e-9));
  REQUIRE(price.part_out);
  CHECK_THAT(*price.part_out, WithinAbs(course(here, "part out").value, 1e-9));
  CHECK(price.hour_is_shops);
  // Of one that is sold it stays that of its day.
  shop.post("{ do = \"sell\", date = 2025-06-10, vehicle = \"pip\", price = 900.00, purse = \"cash\" }");
  shop.record([](book::Recording& recording) { book::set(recording, "hour", "80", Day(2025, 6, 11)); });
  CHECK(known_of(shop.book(), "pip")->job.shop.hour == 50);
}

TEST_CASE("before the purchase a cause that was found is the one that is decided by", "[answers]") {
  book::Shop shop;
  keep_job(shop, certain_job());
  const auto odds = [&] {
    const appraisal::Job job = *job_as_found(shop.book(), "pip");
    std::string all;
    for (const appraisal::Cause& cause : job.causes)
      all += cause.name + (cause.odds > 0 ? " can be; " : " cannot be; ");
    return all;
  };
  CHECK(odds() == "gasket can be; pump can be; ");
  const auto note = [&](const std::string& finding) {
    shop.post("{ do = \"finding\", date = 2025-06-01, vehicle = \"pip\", text = \"seen\", " + finding + " }");
  };
  note("cause = \"pump\"");
  CHECK(odds() == "gasket cannot be; pump can be; ");
  note("cause = \"gasket\"");
  CHECK(odds() == "gasket can be; pump cannot be; ");
  note("ruled_out = [\"gasket\"]");
  CHECK(odds() == "gasket cannot be; pump can be; ");
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

TEST_CASE("a trouble that nobody looked for counts by its chance, in money, hours and at the sale",
          "[answers]") {
  using appraisal::with;
  std::string job = with(appraisal::small_job_with("works = 0.8\n", ""), "pace = 1\n", "pace = 1.5\n");
  job = with(job, "costs = 40\n", "costs = 40\nrate = 0.05\n");
  job = with(job, "value = 310\n", "value = 310\ncosts = 20\n");
  job += "[part_out]\nproceeds = 1500\ncosts = 100\nhours = 40\n";
  const GoOnAnswer answer = noted(job);
  const auto& right = course(answer, "put right").mean;
  CHECK_THAT(right.brings, WithinAbs(3000 - 50 - 10 - 0.2 * 30, 1e-9));
  CHECK_THAT(right.selling, WithinAbs(40 + 0.05 * 2934, 1e-9));
  CHECK_THAT(right.spend, WithinAbs(118 + 55 + 0.2 * 150, 1e-9));  // the fees are the same on every course
  CHECK_THAT(right.hours, WithinAbs((11 + 0.2 * 7) * 1.5, 1e-9));
  CHECK_THAT(right.days, WithinAbs(18.6 / 14 * 7 + 4 + 10, 1e-9));
  const auto& found = course(answer, "sell as found").mean;
  CHECK_THAT(found.brings, WithinAbs(500 - 0.2 * 100, 1e-9));
  CHECK_THAT(found.selling, WithinAbs(40 + 0.05 * 480, 1e-9));
  CHECK_THAT(found.days, WithinAbs(10, 1e-9));
  const auto& pieces = course(answer, "part out").mean;
  CHECK_THAT(pieces.brings, WithinAbs(1500, 1e-9));
  CHECK_THAT(pieces.selling, WithinAbs(100, 1e-9));
  CHECK_THAT(pieces.hours, WithinAbs(60, 1e-9));
  CHECK_THAT(pieces.days, WithinAbs(30, 1e-9));
  CHECK_THAT(course(answer, "scrap").value, WithinAbs(310 - 20, 1e-9));
  REQUIRE(answer.by_chance.size() == 1);
  CHECK(answer.by_chance[0].trouble == "rot");
  CHECK(answer.by_chance[0].chance == 0.2);

  // Found, it is a line of the budget and no chance any more.
  const GoOnAnswer there = noted(job,
                                 ", { do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = "
                                 "\"looked\", trouble = [\"rot=there\"] }");
  CHECK_THAT(course(there, "put right").mean.brings, WithinAbs(2940 - 30, 1e-9));
  CHECK_THAT(course(there, "put right").mean.spend, WithinAbs(118 + 55 + 150, 1e-9));
  CHECK_THAT(course(there, "put right").mean.hours, WithinAbs((11 + 7) * 1.5, 1e-9));
  CHECK_THAT(course(there, "sell as found").mean.brings, WithinAbs(500 - 100, 1e-9));
  CHECK(there.by_chance.empty());

  // Ready, it had its work: what did not show is not there, and nobody waits for parts.
  const GoOnAnswer ready =
      noted(job, ", { do = \"advertised\", date = 2025-06-10, vehicle = \"pip\", price = 3000.00 }");
  CHECK_THAT(course(ready, "put right").mean.spend, WithinAbs(0, 1e-9));
  CHECK_THAT(course(ready, "put right").mean.hours, WithinAbs(0, 1e-9));
  CHECK_THAT(course(ready, "put right").mean.days, WithinAbs(10, 1e-9));
}

TEST_CASE("a trouble that bars the road sends the car the best other way by its chance", "[answers]") {
  using appraisal::with;
  const std::string job = with(appraisal::small_job_with("works = 0.8\n", ""), "takes_off = 30\n",
                               "takes_off = 30\nbars_road = true\n");
  const GoOnAnswer answer = noted(job);
  // As found it brings 500 - 100 then, and on the mean 500 - 0.2 x 100.
  CHECK_THAT(course(answer, "put right").mean.brings, WithinAbs(0.8 * 2940 + 0.2 * 400, 1e-9));
  CHECK_THAT(course(answer, "put right").mean.spend, WithinAbs(0.8 * 173, 1e-9));
  CHECK_THAT(course(answer, "put right").mean.hours, WithinAbs(0.8 * 11, 1e-9));
  CHECK_THAT(course(answer, "sell as found").mean.brings, WithinAbs(480, 1e-9));
}

TEST_CASE("where nothing is on offer the course beside putting right is to do nothing, without a sale",
          "[answers]") {
  using appraisal::with;
  const GoOnAnswer answer =
      noted(with(with(certain_job(), "found = 500\n", ""), "[scrap]\nvalue = 310\n", ""));
  REQUIRE(answer.result.courses.size() == 2);
  const auto& nothing = course(answer, "do nothing");
  CHECK_THAT(nothing.value, WithinAbs(0, 1e-9));
  CHECK_THAT(nothing.mean.days, WithinAbs(0, 1e-9));
}

TEST_CASE("what is sealed goes back on the other courses, and of putting right what it has no use for",
          "[answers]") {
  const std::string job = appraisal::with(
      certain_job(), "found = 800\n",
      "found = 800\ncorrection = \"change\"\n[[correction]]\nname = \"change\"\nparts = [{ name = \"pump\", "
      "qty = 1, new = 90 }]\n");
  const GoOnAnswer answer =
      noted(job,
            ", { do = \"receipt\", date = 2025-06-20, supplier = \"Cleave\", paid = \"cash\", back_by = "
            "2025-07-20, "
            "total = 223.00, line = [{ what = \"set\", amount = 118.00, kind = \"part\", to = \"pip\" }, "
            "{ what = \"pump\", amount = 80.00, kind = \"part\", to = \"pip\" }, "
            "{ what = \"mats\", amount = 20.00, kind = \"part\", to = \"pip\", for = \"readying\" }, "
            "{ what = \"horn\", amount = 5.00, kind = \"part\", to = \"pip\" }] }");
  CHECK(answer.not_needed == std::vector<std::string>{"pump", "horn"});
  CHECK_THAT(course(answer, "put right").mean.back, WithinAbs(85, 1e-9));
  CHECK_THAT(course(answer, "scrap").mean.back, WithinAbs(223, 1e-9));
  CHECK_THAT(course(answer, "sell as found").mean.back, WithinAbs(223, 1e-9));
}

TEST_CASE("a correction that fails has cost its money, its hours and its days, and the fix is left",
          "[answers]") {
  const auto with_rot = [](const std::string& more = {}) { return noted(appraisal::small_job, more); };
  const auto right = course(with_rot(), "put right").mean;
  // Cured in 8 of 10: parts, wing and rot by its chance; else it is sold as found, where rot is found in 1 of 5.
  CHECK_THAT(right.brings, WithinAbs(0.8 * (2940 - 6) + 0.2 * (500 - 20), 1e-9));
  CHECK_THAT(right.spend, WithinAbs(0.8 * (118 + 55 + 30) + 0.2 * 118, 1e-9));
  CHECK_THAT(right.hours, WithinAbs(0.8 * (11 + 1.4) + 0.2 * 9, 1e-9));
  CHECK_THAT(right.days, WithinAbs(0.8 * (12.4 / 2 + 4 + 10) + 0.2 * (10 + 4.5), 1e-9));
  // The wing is left: its 190 stay off, and its 55 and 2 hours are not spent.
  const auto left =
      course(with_rot(
                 ", { do = \"done\", date = 2025-06-04, vehicle = \"pip\", lines = [\"wing\"], says = \"not "
                 "needed\" }"),
             "put right")
          .mean;
  CHECK_THAT(left.brings, WithinAbs(0.8 * (2940 - 190 - 6) + 0.2 * (500 - 20), 1e-9));
  CHECK_THAT(left.spend, WithinAbs(0.8 * (118 + 30) + 0.2 * 118, 1e-9));
}

TEST_CASE("a car in pieces is decided, and a cause that is all but settled needs no word", "[answers]") {
  CHECK(book::Shop::said([] {
          noted(certain_job(),
                ", { do = \"part out\", date = 2025-06-10, vehicle = \"pip\", still_brings = 300.00 }");
        }).starts_with("go-on: pip is in pieces since 2025-06-10: it is parted out already, expected a car"));
  const auto not_noted = [](const std::string& job) {
    book::Shop shop;
    keep_job(shop, job);
    shop.post("{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 400.00, purse = \"cash\" }");
    return go_on(shop.book(), {"pip", "", {}, {}}, shop.today);
  };
  CHECK(book::Shop::said([&] {
          not_noted(certain_job());
        }).starts_with("go-on: which cause was found on pip: 1 \"gasket\", 2 \"pump\"?"));
  CHECK(not_noted(appraisal::with(certain_job(), "odds = 3", "odds = 19")).cause == "gasket");
  Known known;
  known.job = appraisal::job_of(certain_job());
  known.job.causes[0].odds = 0.75;
  known.job.causes[1].odds = 0.25;
  CHECK_FALSE(is_settled(known));
  known.cause_is_found = true;
  CHECK(is_settled(known));
}

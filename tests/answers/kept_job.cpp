// Which of several appraisals counts: the last for what is to come, that of the purchase for what is past.
#include "answers/kept_job.h"

#include "answers/pip.h"
#include "resale/own_amount.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

void keep(Pip& pip, Day day, const std::string& job, const std::string& figures = {}) {
  pip.record([&](book::Recording& recording) {
    book::keep_appraisal(recording, "pip", day, 0, {job, "", figures});
  });
}

}  // namespace

TEST_CASE("what looks forward goes by the last appraisal, what looks back by that of the purchase",
          "[answers]") {
  Pip pip;
  keep(pip, Day(2025, 6, 9), appraisal::with(certain_job(), "sound = 3000", "sound = 2400"), "{}");
  const auto sound = [](const appraisal::Job& job) { return appraisal::sound_value_of(job).mean; };
  const auto last = kept_job(pip.book(), "pip");
  REQUIRE(last);
  CHECK(last->day == Day(2025, 6, 9));
  CHECK(last->figures == "{}");
  CHECK(sound(last->job) == 2400);
  const auto before = kept_job(pip.book(), "pip", Day(2025, 6, 8));
  REQUIRE(before);
  CHECK(before->day == Day(2025, 6, 1));
  CHECK(sound(before->job) == 3000);
  CHECK_FALSE(kept_job(pip.book(), "pip", Day(2025, 5, 31)));
  const auto bought = job_at_purchase(pip.book(), "pip");
  REQUIRE(bought);
  CHECK(bought->day == Day(2025, 6, 1));
  CHECK(kept_tree(pip.book(), "pip")->find("value")->find("sound")->text == "2400");
  CHECK_FALSE(kept_tree(pip.book(), "wren"));
}

TEST_CASE("\"own\" is what was settled when it was kept; what own figures rest on is believed beforehand",
          "[answers]") {
  Pip pip;
  pip.record([&](book::Recording& recording) {
    book::keep_appraisal(recording, "pip", Day(2025, 6, 1), 0,
                         {appraisal::with(certain_job(), "pace = 1\n", "pace = \"own\"\n"),
                          "pace = [1.500000, 1.500000, 1.500000]\n", ""});
  });
  const auto kept = book::appraisal_in_force(pip.book(), "pip");
  REQUIRE(kept);
  CHECK(read_kept_job(pip.book(), "pip", *kept).shop.pace.mean() == 1.5);
  CHECK(job_at_purchase(pip.book(), "pip")->job.shop.pace.mean() == 1.5);
  const auto believed = believed_job_at_purchase(pip.book(), "pip");
  REQUIRE(believed);
  CHECK_THAT(believed->shop.pace.mean(),
             Catch::Matchers::WithinAbs(resale::common_practice::pace.points.mean(), 1e-9));
  keep(pip, Day(2025, 6, 1), appraisal::with(certain_job(), "tag = \"pip\"", "tag = \"copied\""));
  CHECK(kept_job(pip.book(), "pip")->job.vehicle.tag == "pip");
}

TEST_CASE(
    "a question that still decides something refuses a car that is unknown, gone or without an appraisal",
    "[answers]") {
  Pip pip;
  CHECK(job_to_decide(pip.book(), "choose", "pip").day == Day(2025, 6, 1));
  const auto refused = [&](const std::string& tag) {
    return book::Shop::said([&] { job_to_decide(pip.book(), "choose", tag); });
  };
  pip.post(
      "{ do = \"buy\", date = 2025-06-03, vehicle = \"wren\", price = 100.00, purse = \"cash\" }, "
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1450.00, purse = \"cash\" }");
  CHECK(refused("pip") == "choose: pip was sold on 2025-06-20; there is nothing left to decide");
  CHECK(refused("wren").starts_with("choose: no appraisal of wren is kept in the book, expected one"));
  CHECK(refused("pop").starts_with("choose: "));
}

// How the appraisals did, against figures that were kept: written by hand, so that no program of today can have
// said them.
#include "answers/appraisals_tried.h"

#include "answers/car_of_small_job.h"

using namespace nonrunner;
using namespace nonrunner::answers;
using Catch::Matchers::WithinAbs;

namespace {

// Of 900 asked: 600 expected, a loss in one of ten cases; four steps of 500 each.
const std::string kept_figures =
    R"({"expected":{"cash_profit":"600.00","days":20},"risk":{"loss_chance":0.1,"spread":)"
    R"({"from":"-400.00","to":"1600.00","chances":[0.05,0.15,0.5,0.3]}}})";

Tried tried(const std::string& price, const std::string& figures, const std::string& job) {
  book::Shop shop;
  keep_job(shop, job, figures);
  shop.post("{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = " + price +
            ", purse = \"cash\" }, { do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 1450.00, "
            "purse = \"cash\" }");
  const AppraisalsTried all = appraisals_tried(shop.book(), Day(2025, 6, 30));
  REQUIRE(all.cars.size() == 1);
  return all.cars.front();
}

}  // namespace

TEST_CASE("an appraisal is held to what it said when it was kept, moved by what was not paid", "[answers]") {
  const Tried as_asked = tried("900.00", kept_figures, certain_job());
  CHECK(as_asked.expected == 600);
  CHECK(as_asked.loss_chance == 0.1);
  CHECK(as_asked.actual == 550);
  CHECK_THAT(as_asked.chance_below, WithinAbs(0.05 + 0.15 * 450 / 500, 1e-12));

  // 200 less: each outcome is 200 better, so a loss was one of -200 at the price asked.
  const Tried cheaper = tried("700.00", kept_figures, certain_job());
  CHECK(cheaper.expected == 800);
  CHECK(cheaper.actual == 750);
  CHECK_THAT(cheaper.loss_chance, WithinAbs(0.05 * 200 / 500, 1e-12));
  CHECK_THAT(cheaper.chance_below, WithinAbs(0.05 + 0.15 * 450 / 500, 1e-12));

  // With a tax of a tenth on the price and a tenth a year on the cash, over the 20 days.
  std::string job = appraisal::with(certain_job(), "fees = 100\n", "fees = 100\nrate = 0.1\n");
  job = appraisal::with(job, "holding_per_day = 3\n", "holding_per_day = 3\nmoney_rate = 0.1\n");
  CHECK_THAT(tried("700.00", kept_figures, job).expected, WithinAbs(600 + 220 * (1 + 0.1 * 20 / 365), 1e-9));
}

TEST_CASE("without figures that can be read an appraisal is worked out anew", "[answers]") {
  const double expected =
      appraisal::appraised(appraisal::job_of(certain_job())).asked.expected.cash_profit + 200;
  for (const char* figures : {"", "{}", R"({"expected":{"cash_profit":"600.00"}})"}) {
    INFO(figures);
    CHECK_THAT(tried("700.00", figures, certain_job()).expected, WithinAbs(expected, 1e-9));
  }
}

TEST_CASE("what came less what was expected, and the losses there were, count from the day after the sale",
          "[answers]") {
  book::Shop shop;
  keep_job(shop, certain_job(), kept_figures);
  shop.post(
      "{ do = \"buy\", date = 2025-06-02, vehicle = \"pip\", price = 900.00, purse = \"cash\" }, "
      "{ do = \"sell\", date = 2025-06-20, vehicle = \"pip\", price = 500.00, purse = \"cash\" }");
  CHECK(appraisals_tried(shop.book(), Day(2025, 6, 20)).cars.empty());
  const AppraisalsTried all = appraisals_tried(shop.book(), Day(2025, 6, 21));
  REQUIRE(all.cars.size() == 1);
  CHECK(all.off.mean == -1000);  // -400 came, 600 were expected
  CHECK(all.losses.losses == 1);
  CHECK(all.cars[0].chance_below == 0.05);  // the lowest figure stands for what lies below it
}

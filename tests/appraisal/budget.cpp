#include "appraisal/budget.h"

#include <catch2/catch.hpp>

#include "appraisal/read_job.h"
#include "appraisal/sound_value.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;
using Catch::WithinAbs;

namespace {

struct Sample {
  Job job;
  Estimate estimate;
};

Sample sprat_with_its_pump_failed() {
  const std::string file = NONRUNNER_SOURCE "/sample-jobs/sprat/job.toml";
  Sample sample{read_job(read_file(file), file, Currency::of("USD")), {}};
  const Courses courses(sample.job, sound_value_of(sample.job).mean);
  for (std::size_t i = 0; i < sample.job.causes.size(); ++i)
    if (sample.job.causes[i].name == "coolant pump failed") sample.estimate = *estimate_of(courses, i);
  return sample;
}

double cash(const Estimate& estimate, bool fixes) {
  double sum = 0;
  for (const EstimatedLine& line : estimate.lines)
    if (line.kind != EstimatedLine::Kind::fees && (line.kind == EstimatedLine::Kind::fix) == fixes)
      sum += line.cash();
  return sum;
}

std::string group_of(const Estimate& estimate, const std::vector<Booked>& booked) {
  const auto under = under_lines(estimate, booked).back();
  return under ? estimate.lines[*under].what : "not in it";
}

}  // namespace

TEST_CASE("the estimate of a cause adds up to what the appraisal expects", "[appraisal]") {
  const Estimate estimate = sprat_with_its_pump_failed().estimate;
  CHECK_THAT(cash(estimate, false), WithinAbs(204.32, 1e-9));  // the correction, as the job's results have it
  CHECK_THAT(cash(estimate, true), WithinAbs(518.00, 1e-9));   // the fixes
  CHECK_THAT(estimate.sale_price, WithinAbs(3241.50, 5e-3));
  double hours = 0;
  for (const EstimatedWork& work : estimate.work) hours += work.hours;
  CHECK_THAT(hours, WithinAbs(1.9444 + 8.5672 + 7.9722, 0.01));
  CHECK_THAT(hours, WithinAbs(estimate.own_hours, 1e-9));
}

TEST_CASE(
    "a booked line falls under the estimate by its name, then by its fault, and nothing else is guessed",
    "[appraisal]") {
  const Estimate estimate = sprat_with_its_pump_failed().estimate;
  CHECK(group_of(estimate, {{"accessory belt", "Millgate 40188"}}) == "accessory belt");
  CHECK(group_of(estimate, {{"coolant", ""}}) == "coolant concentrate, gal");
  CHECK(group_of(estimate, {{"front brake disc", "Millgate 40355"}}) == "pads and discs, new");
  CHECK(group_of(estimate, {{"heater matrix, outlet right", "Millgate 40281"}}) == "not in it");
  CHECK(group_of(estimate, {{"heater hose", "Millgate 40260"}}) == "not in it");
  CHECK(group_of(estimate, {{"tow, 17 miles", "Bexley T-882", true, true}}) == "fees");
  CHECK(group_of(estimate, {{"inspection, free retest", "Town Test Lane 8841", true, true}}) == "not in it");
}

TEST_CASE("fitting goes with what was fitted on the same paper", "[appraisal]") {
  const Estimate estimate = sprat_with_its_pump_failed().estimate;
  CHECK(group_of(estimate, {{"tyre, part-worn", "Corran 5512"},
                            {"fitting and balancing", "Corran 5512", true}}) == "part-worn pair, fitted");
  CHECK(group_of(estimate, {{"windscreen", "Latchet G204"}, {"fitting", "Latchet G204", true}}) ==
        "new glass, fitted");
  CHECK(group_of(estimate, {{"windscreen", "Latchet G204"}, {"yard entrance", "Cleave 3140", true, true}}) ==
        "not in it");
}

TEST_CASE("hours fall under an operation where at least half of their words agree", "[appraisal]") {
  const Estimate estimate = sprat_with_its_pump_failed().estimate;
  const auto under = [&](const std::string& operation) {
    const auto place = under_work(estimate, operation);
    return place ? estimate.work[*place].operation : "not in it";
  };
  CHECK(under("change the radiator") == "change the radiator");
  CHECK(under("front brakes") == "pads and discs, new");
  CHECK(under("tests before buying") == "not in it");
  CHECK(under("dashboard out") == "not in it");
  CHECK(under("pulling parts at the yard") == "not in it");
}

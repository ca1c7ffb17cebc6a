// The other sample jobs: they are answered, and one is not worth its price.
#include <catch2/catch.hpp>

#include "appraisal/jobs.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;
using Catch::Matchers::WithinAbs;

TEST_CASE("troupe is not worth 2,900, and is worth what it says it is", "[appraisal]") {
  const Job job = job_at("sample-jobs/troupe/job.toml");
  const Appraisal a = appraised(job);
  CHECK(a.verdict == Verdict::offer_less);
  CHECK(a.walk_away.binding == Aim::profit);
  CHECK(cents(a.walk_away.price) == "1595.22");
  Job cheaper = job;
  cheaper.deal.asking = 1595;
  CHECK(appraised(cheaper).verdict != Verdict::walk_away);
  CHECK_THAT(appraised(cheaper).asked.expected.profit, WithinAbs(600.23, 0.005));
  cheaper.deal.asking = 1596;
  CHECK(appraised(cheaper).asked.expected.profit < 600);
}

TEST_CASE("what a test is worth depends on the price: nothing at troupe's asking price, much between",
          "[appraisal][plan]") {
  Job job = job_at("sample-jobs/troupe/job.toml");
  CHECK(appraised(job, 64).plan.best == 0);
  job.deal.asking = 1800;
  const Appraisal between = appraised(job, 64);
  CHECK(between.plan.decide_now == 0);
  CHECK(between.plan.best > 100);
  CHECK(between.verdict == Verdict::test_first);
}

TEST_CASE("drayman is answered alike whether rot is told as a cause or as a trouble", "[appraisal]") {
  for (const char* file : {"sample-jobs/drayman/job.toml", "sample-jobs/drayman/rot-as-trouble.toml"}) {
    const Appraisal a = appraised(job_at(file));
    CHECK(a.verdict == Verdict::offer_less);
    CHECK(cents(a.walk_away.price) == "1906.97");
    CHECK_THAT(a.asked.risk.sampled_cash_profit, WithinAbs(a.asked.expected.cash_profit, 0.5));
    CHECK_THAT(a.asked.risk.sampled_profit, WithinAbs(a.asked.expected.profit, 0.5));
  }
}

TEST_CASE("the sample jobs by comparables are answered, sampled and by formula alike", "[appraisal]") {
  for (const char* file : {"sample-jobs/sprat/by-comparables.toml", "sample-jobs/drayman/by-comparables.toml",
                           "sample-jobs/troupe/by-comparables.toml"}) {
    const Appraisal a = appraised(job_at(file));
    CHECK(a.walk_away.price > 500);
    CHECK_THAT(a.asked.risk.sampled_cash_profit, WithinAbs(a.asked.expected.cash_profit, 1));
  }
}

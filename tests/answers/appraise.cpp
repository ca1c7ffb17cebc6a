// What is appraised, with what is said beside the file, and what a book keeps of it.
#include "answers/appraise.h"

#include <catch2/catch.hpp>

#include "appraisal/jobs.h"
#include "book/events/finding.h"
#include "book/fixture.h"

using namespace nonrunner;
using answers::ToAppraise;

namespace {

const std::string file = appraisal::small_job_with("name = \"gas\"", "name = \"gas = bad\"");

ToAppraise small() {
  return answers::file_to_appraise(file, "pip.toml", nullptr, Currency{}, Day(2026, 5, 2));
}

std::string said_of(ToAppraise& job, const std::vector<std::string>& outcomes) {
  return book::Shop::said([&] { answers::see(job, outcomes); });
}

}  // namespace

TEST_CASE("a test is seen by its name or its number, with an equals sign in the name as well", "[answers]") {
  for (const char* given : {"gas = bad=none", "1=2"}) {
    ToAppraise job = small();
    answers::see(job, {given});
    REQUIRE(job.seen.size() == 1);
    CHECK(job.seen[0].test == "gas = bad");
    CHECK(job.seen[0].outcome == "none");
    CHECK(job.job.tests[0].seen == 1u);
  }
}

TEST_CASE("a test that is seen twice, by name or number, is refused", "[answers]") {
  ToAppraise job = small();
  CHECK(said_of(job, {"1=2", "gas = bad=none"}) ==
        "test \"gas = bad\" stands twice, expected one outcome of it");
}

TEST_CASE("an offer stands in for the price asked", "[answers]") {
  ToAppraise job = small();
  answers::ask(job, Money::parse("775.50", job.job.currency));
  CHECK(job.job.deal.asking == 775.5);
}

TEST_CASE("what is kept is the file as it is, and what a test has shown beside it", "[answers]") {
  book::Shop shop;
  ToAppraise job = small();
  answers::see(job, {"1=2"});
  {
    book::Recording recording(shop.book(), "2026-05-02T10:00:00Z", Day(2026, 5, 2));
    answers::keep(recording, job, Day(2026, 5, 2), "{}");
    recording.keep();
  }
  const ToAppraise again = answers::car_to_appraise(shop.book(), "pip");
  CHECK(again.text == file);
  CHECK(again.job.tests[0].seen == 1u);
  const auto findings = book::findings(shop.book(), "pip");
  REQUIRE(findings.size() == 1);
  REQUIRE(findings[0].facts.size() == 1);
  CHECK(findings[0].facts[0].name == "gas = bad");
  CHECK(findings[0].facts[0].value == "none");
  CHECK(book::Shop::said([&] { answers::car_to_appraise(shop.book(), "gull"); }) ==
        "appraise: no vehicle has the tag \"gull\"; see: nonrunner vehicles");
}

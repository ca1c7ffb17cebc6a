// Every aim of the list, whatever it is: read from a job file, asked of the price, named in the answer. An aim
// that was given a row and nothing else does not pass here.
#include <catch2/catch.hpp>

#include "appraisal/jobs.h"
#include "text/toml.h"
#include "words/appraise_json.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;

namespace {
// The small job with one aim in the place of its own.
Job job_with(const std::string& key, double value) {
  std::string text = small_job;
  const std::string own = "profit = 300\n";
  text.replace(text.find(own), own.size(), fmt::format("{} = {}\n", key, value));
  return job_of(text);
}
}  // namespace

TEST_CASE("every aim of the list is read from a job file, lowers the price where much is asked, and is named",
          "[appraisal]") {
  const double plain = appraised(job_with("profit", 0), 64).walk_away.price;
  for (const figures::AimRow& row : figures::aims) {
    INFO(row.key);
    const double much = row.at_most ? 0 : 1000;
    const Job job = job_with(row.key, much);
    REQUIRE(job.aims[row.aim]);
    CHECK(*job.aims[row.aim] == much);
    const Aims others = job.aims.without(row.aim);
    CHECK_FALSE(others[row.aim]);
    const Appraisal a = appraised(job, 64);
    CHECK(a.walk_away.price < plain);
    CHECK(a.walk_away.binding == row.aim);
    REQUIRE(a.walk_away.by[row.aim]);
    CHECK(a.walk_away.price <= *a.walk_away.by[row.aim]);
    const std::string json = words::to_json(a);
    CHECK(json.find(fmt::format("\"binding\": \"{}\"", row.key)) != std::string::npos);
    CHECK(json.find(fmt::format("\"{}\": \"{}\"", row.key, cents(a.walk_away.by[row.aim]))) !=
          std::string::npos);
  }
}

TEST_CASE("an aim that is left out is asked of nothing: the others keep what they ask", "[appraisal]") {
  Aims aims;
  aims[Aim::profit] = 300;
  CHECK(aims.is_profit_alone());
  aims[Aim::loss_chance] = 0.1;
  aims[Aim::per_hour] = 22;
  CHECK_FALSE(aims.is_profit_alone());
  for (const figures::AimRow& gone : figures::aims)
    for (const figures::AimRow& row : figures::aims)
      if (row.aim != gone.aim) CHECK(aims.without(gone.aim)[row.aim] == aims[row.aim]);
}

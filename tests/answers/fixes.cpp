// Which fixes pay, as a struct: what every surface is told before anything is printed.
#include "answers/fixes.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "appraisal/jobs.h"

using namespace nonrunner;
using answers::FixesAnswer;

namespace {

FixesAnswer of_sprat(const appraisal::Limits& limits) {
  return answers::fixes(appraisal::job_at("sample-jobs/sprat/job.toml"), limits);
}

}  // namespace

TEST_CASE("each fault is put right first, in its turn, later or left, and only once", "[answers]") {
  for (const appraisal::Limits& limits :
       {appraisal::Limits{}, appraisal::Limits{6.2, 480.0}, appraisal::Limits{4.0, {}}}) {
    const FixesAnswer answer = of_sprat(limits);
    std::multiset<std::size_t> faults(answer.must.begin(), answer.must.end());
    for (const FixesAnswer::Next& each : answer.order) faults.insert(each.fault);
    faults.insert(answer.no_room.begin(), answer.no_room.end());
    faults.insert(answer.left.begin(), answer.left.end());
    CHECK(faults.size() == answer.classes.size());
    for (std::size_t k = 0; k < answer.classes.size(); ++k) CHECK(faults.count(k) == 1);
    for (const std::size_t k : answer.must) CHECK(answer.fault(k).must);
    for (const std::size_t k : answer.no_room) CHECK(answer.is_left(k, answer.chosen().picks[k]));
  }
}

TEST_CASE("what an hour earns falls along the order, and what takes none comes first", "[answers]") {
  const FixesAnswer answer = of_sprat({});
  REQUIRE(answer.order.size() > 1);
  for (std::size_t i = 1; i < answer.order.size(); ++i) {
    const auto &before = answer.order[i - 1].an_hour, &after = answer.order[i].an_hour;
    if (before) REQUIRE(after);
    if (before && after) CHECK(*before >= *after);
  }
}

TEST_CASE("limits only take away, and what they leave keeps them", "[answers]") {
  const FixesAnswer free = of_sprat({}), tight = of_sprat({6.2, 480.0});
  CHECK_FALSE(free.has_limits());
  CHECK(&free.chosen() == &free.best);
  CHECK(tight.has_limits());
  CHECK(tight.chosen().hours <= 6.2 + 1e-9);
  CHECK(tight.chosen().cash <= 480 + 1e-9);
  CHECK(tight.chosen().gain <= tight.best.gain);
  CHECK(free.best.gain == tight.best.gain);
}

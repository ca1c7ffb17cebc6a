// Outcomes seen in the appraisal before, of tests on which the new file is silent.
#include "answers/tests_kept.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

const std::string unseen = certain_job();
const std::string seen = appraisal::with(unseen, "cash = 12\n", "cash = 12\nseen = \"none\"\n");

std::string kept(Pip& pip, const std::string& fresh) {
  std::string all;
  for (const book::Fact& each : tests_to_keep(pip.book(), "pip", appraisal::job_of(fresh)))
    all += each.what + "|" + each.name + "|" + each.value + "\n";
  return all;
}

}  // namespace

TEST_CASE("what was seen before is kept where the new file has the test and says nothing of it",
          "[answers]") {
  Pip pip(seen);
  CHECK(kept(pip, unseen) == "seen|gas|none\n");
  CHECK(kept(pip, seen).empty());
  CHECK(kept(pip, appraisal::with(unseen, "name = \"gas\"", "name = \"smell\"")).empty());
  CHECK(kept(pip, appraisal::with(unseen, "\"none\"]", "\"no colour\"]")).empty());
  pip.post(
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"again\", seen = [\"gas=colour\"] "
      "}");
  CHECK(kept(pip, unseen).empty());  // a finding says it
}

TEST_CASE("without outcomes seen before, or without an appraisal, there is nothing to keep", "[answers]") {
  Pip pip(unseen);
  CHECK(kept(pip, unseen).empty());
  CHECK(tests_to_keep(pip.book(), "wren", appraisal::job_of(unseen)).empty());
}

TEST_CASE("a test that is spoiled, before or now, is not kept, and another finding takes nothing off",
          "[answers]") {
  Pip pip(seen);
  CHECK(kept(pip, appraisal::with(unseen, "cash = 12\n", "cash = 12\nspoiled = true\n")).empty());
  pip.post(
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"dry\", ruled_out = [\"pump\"] }");
  CHECK(kept(pip, unseen) == "seen|gas|none\n");
}

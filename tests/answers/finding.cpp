// What is noted of a car, in the names of its appraisal.
#include "answers/finding.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

namespace fact = book::fact;

std::string noted(Pip& pip, std::vector<book::Fact> facts) {
  std::string all;
  const std::string refused = book::Shop::said([&] {
    for (const book::Fact& each :
         checked(pip.book(), {Day(2025, 6, 5), "pip", "seen", std::move(facts)}).facts)
      all += each.what + "|" + each.name + "|" + each.value + "\n";
  });
  return refused == "accepted" ? all : refused;
}

}  // namespace

TEST_CASE("a fact is known by its number, its name or its beginning, and kept by its whole name",
          "[answers]") {
  Pip pip;
  CHECK(noted(pip, {{fact::seen, "1", "2"}}) == "seen|gas|none\n");
  CHECK(noted(pip, {{fact::seen, "ga", "col"}}) == "seen|gas|colour\n");
  CHECK(noted(pip, {{fact::cause, "pu", ""}}) == "cause|pump|\n");
  CHECK(noted(pip, {{fact::cause, "something else", ""}}) == "cause|something else|\n");
  CHECK(noted(pip, {{fact::failed, "reseal", ""}}) == "failed|reseal|\n");
  CHECK(noted(pip, {{fact::not_there, "radiator", "yard"}}) == "not there|radiator|yard\n");
}

TEST_CASE("a name that the appraisal does not know is refused with the nearest, or with those it has",
          "[answers]") {
  Pip pip;
  CHECK(noted(pip, {{fact::cause, "gaskt", ""}}) ==
        "note: the appraisal of pip of 2025-06-01 knows no cause \"gaskt\", did you mean \"gasket\"?");
  CHECK(noted(pip, {{fact::seen, "gas", "blue smoke"}}) ==
        "note: the appraisal of pip of 2025-06-01 knows no outcome of \"gas\" \"blue smoke\", expected one "
        "of 1 "
        "\"colour\", 2 \"none\"");
  CHECK(noted(pip, {{fact::trouble, "rot", "there"}}) ==
        "note: the appraisal of pip of 2025-06-01 knows no trouble \"rot\"; it has none");
}

TEST_CASE("facts that leave no cause with a chance are refused, what was found before named", "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"finding\", date = 2025-06-04, vehicle = \"pip\", text = \"dry\", ruled_out = [\"gasket\"] }");
  CHECK(noted(pip, {{fact::ruled_out, "pump", ""}})
            .starts_with(
                "note: ruled out: pump leaves no cause of the appraisal of pip with a chance, expected one "
                "to be left; found before: ruled out: gasket (entry 3)"));
}

TEST_CASE("an outcome given by numbers is said in names, and what is no outcome is left as it stands",
          "[answers]") {
  const appraisal::Job job = appraisal::job_of(certain_job());
  CHECK(seen_in_names(job, "1=2") == "gas=none");
  CHECK(seen_in_names(job, "gas=1") == "gas=colour");
  CHECK(seen_in_names(job, "gas=blue") == "gas=blue");
  CHECK(seen_in_names(job, "5=1") == "5=1");
  CHECK(seen_in_names(job, "gas") == "gas");
}

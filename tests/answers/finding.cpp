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

TEST_CASE("a beginning that two have, an empty name and a word that is no state of a trouble are refused",
          "[answers]") {
  Pip pip(appraisal::with(appraisal::small_job_with("name = \"pump\"", "name = \"gas pump\""),
                          "\"pump\" = [0.05", "\"gas pump\" = [0.05"));
  CHECK(noted(pip, {{fact::cause, "gas", ""}})
            .starts_with("note: the appraisal of pip of 2025-06-01 knows no cause \"gas\""));
  CHECK(noted(pip, {{fact::failed, "", ""}})
            .starts_with("note: the appraisal of pip of 2025-06-01 knows no correction \"\""));
  CHECK(noted(pip, {{fact::trouble, "rot", "not there"}}) == "trouble|rot|not there\n");
  CHECK(noted(pip, {{fact::trouble, "rot", "some"}}) ==
        "note: found \"some\" for \"rot\", expected there or \"not there\"");
  CHECK(noted(pip, {{fact::same, "seals", "set"}}) == "same|seals|set\n");  // a part of the correction
}

TEST_CASE("a cause that is named stands against all that was ruled out, and outcomes weigh together",
          "[answers]") {
  // A test that a gasket never passes, and one about the rot alone.
  const std::string sure = appraisal::small_job_with("\"gasket\" = [0.9, 0.1]", "\"gasket\" = [1, 0]");
  Pip pip(sure +
          "[[test]]\nname = \"tap\"\noutcomes = [\"dull\", \"bright\"]\nabout = \"rot\"\ngiven = { "
          "present = [1, 0], absent = [0.1, 0.9] }\n");
  CHECK(noted(pip, {{fact::ruled_out, "pump", ""}, {fact::seen, "tap", "bright"}}) ==
        "ruled out|pump|\nseen|tap|bright\n");
  CHECK(noted(pip, {{fact::ruled_out, "pump", ""}, {fact::seen, "gas", "none"}})
            .starts_with("note: seen: gas = none leaves no cause of the appraisal of pip with a chance"));
  CHECK(noted(pip,
              {{fact::ruled_out, "gasket", ""}, {fact::ruled_out, "pump", ""}, {fact::cause, "pump", ""}}) ==
        "ruled out|gasket|\nruled out|pump|\ncause|pump|\n");
  pip.post(
      "{ do = \"finding\", date = 2025-06-04, vehicle = \"pip\", text = \"looked\", trouble = "
      "[\"rot=there\"], "
      "ruled_out = [\"gasket\"] }");
  CHECK(noted(pip, {{fact::ruled_out, "pump", ""}}).find("; found before: ruled out: gasket (entry 3)") !=
        std::string::npos);
  book::Shop bare;
  bare.post("{ do = \"finding\", date = 2025-06-03, vehicle = \"wren\", text = \"asked 700\" }");
  const auto of_wren = [&](const std::string& what, const std::string& name) {
    return book::Shop::said([&] {
      checked(bare.book(), {Day(2025, 6, 5), "wren", "seen", {{what, name, ""}}});
    });
  };
  CHECK(of_wren(fact::not_there, "7") == "accepted");
  CHECK(of_wren(fact::cause, "7").starts_with("note: found 7 for a name, and no appraisal of wren is kept"));
}

// Cars, tests and lines of the budget, named as one types them.
#include <catch2/catch.hpp>

#include "commands/counter.h"

using namespace nonrunner;

namespace {

const std::string sprat_job = NONRUNNER_SOURCE "/sample-jobs/sprat/job.toml";

class Appraised : public commands::Counter {
 public:
  explicit Appraised(const std::string& name) : Counter(name) {
    run({"owner", "in", "2500", "--purse", "cash", "--date", "2026-04-01"});
    run({"appraise", sprat_job, "--keep", "--date", "2026-04-01"});
  }
};

}  // namespace

TEST_CASE("tags of kept appraisals have no case", "[commands]") {
  Appraised table("named-tags");
  CHECK(table.run({"appraise", "Sprat"}) == table.run({"appraise", "sprat"}));
  CHECK(table.status == 0);
  CHECK(table.run({"fixes", "SPRAT", "--detail"}) == table.run({"fixes", "sprat", "--detail"}));
  CHECK(table.status == 0);
  CHECK(table.run({"choose", "Sprat", "--offer", "sPrat=900"}) ==
        table.run({"choose", "sprat", "--offer", "sprat=900"}));
  CHECK(table.status == 0);
}

TEST_CASE("tests and outcomes are named by their beginnings before the purchase too", "[commands]") {
  Appraised table("named-seen");
  CHECK(table.run({"appraise", "sprat", "--seen", "combustion=colour"}) ==
        table.run({"appraise", "sprat", "--seen", "combustion gas in the coolant=colour changes"}));
  CHECK(table.status == 0);
  // A beginning that two tests have is none.
  CHECK(table.run({"appraise", "sprat", "--seen", "co=even"}).find("nonrunner: appraise: --seen: ") == 0);
  CHECK(table.status == 2);
}

TEST_CASE("under takes a line by its beginning, and asks or says where a heading of one's own is near one",
          "[commands]") {
  Appraised table("named-under");
  table.run({"note", "sprat", "found", "--cause", "head gasket leaking"});
  table.run({"buy", "sprat", "900", "--date", "2026-04-02"});
  const std::string said =
      table.run({"receipt", "sprat", "95", "head work", "--kind", "sublet", "--no-paper"});
  INFO(said);
  const std::string entry = said.substr(6, said.find(':') - 6);
  const std::string told = table.run({"under", "sprat", "skim", "the", "head", "--entry", entry});
  CHECK(told.find(
            "it stands under \"skim the head\" now\n  \"skim the head\" is a new heading; if it is line ") ==
        0);
  CHECK(told.find("nonrunner under sprat \"pressure-test and skim") != std::string::npos);
  CHECK(table.at_terminal({"under", "sprat", "the head skim", "--entry", entry}, "n\n")
            .find("it stands under \"the head skim\" now\n") != std::string::npos);
  CHECK(table.at_terminal({"under", "sprat", "skim", "head", "--entry", entry}, "y\n")
            .find("it stands under \"pressure-test and skim the head\" now\n") != std::string::npos);
  CHECK(table.run({"under", "sprat", "pressure-test", "--entry", entry}) ==
        "it stands under \"pressure-test and skim the head\" now\n");
  CHECK(table.run({"under", "sprat", "discovery", "--entry", entry}) ==
        "it stands under \"discovery\" now\n");
}

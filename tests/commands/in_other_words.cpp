// A line of a car's budget said in other letters, a job file that names another car, a debt on a card: what is kept is
// what was meant, and stays so through export and restore.
#include <catch2/catch.hpp>

#include "commands/session.h"

using Catch::Matchers::Contains;
using nonrunner::commands::Session;

namespace {
const std::string job = NONRUNNER_SOURCE "/sample-jobs/sprat/job.toml";
}

TEST_CASE("a line that is done by words in other letters is done in the book made again as well",
          "[commands]") {
  Session session;
  REQUIRE(session.type("start").status == 0);
  session.type("owner in 3000 --purse cash");
  REQUIRE(session.type("buy sprat 900 --purse cash --job " + job).status == 0);
  session.type("note sprat it sticks --cause \"thermostat stuck shut\"");
  const std::string before = session.type("show sprat --detail").out;
  REQUIRE(session.type("hours sprat 1 \"Drain, thermostat: REFIT\" --done").status == 0);
  const std::string done = session.type("show sprat --detail").out;
  CHECK(done != before);
  const auto exported = session.type("export SHOP/export");
  CHECK(exported.err.empty());
  CHECK(exported.status == 0);
  REQUIRE(session.type("restore SHOP/export --book SHOP/again.book").status == 0);
  CHECK(session.type("show sprat --detail --book SHOP/again.book").out == done);
}

TEST_CASE("an appraisal is kept under the car that was typed, whatever the file calls it", "[commands]") {
  Session session;
  session.type("start");
  session.type("owner in 3000 --purse cash");
  const auto bought = session.type("buy plover 900 --purse cash --job " + job);
  std::string said = bought.out + bought.err;  // folded where the place of these sources is long
  for (auto at = said.find("\n    "); at != std::string::npos; at = said.find("\n    "))
    said.replace(at, 5, " ");
  CHECK_THAT(said, Contains(job + " calls the car sprat; it is kept as the appraisal of plover"));
  CHECK_THAT(session.type("appraise plover --keep").out,
             Contains("as the appraisal of plover of 2026-05-02"));
  CHECK_THAT(session.type("vehicles").out, !Contains("sprat"));
  CHECK_THAT(session.type("fixes plover --json").out, Contains("\"tag\": \"plover\""));
}

TEST_CASE("a debt on a card stands among what is owed and in the purses, and the year says so",
          "[commands]") {
  Session session;
  session.type("start");
  session.type("set purse.visa liability");
  session.type("owner in 3000 --purse cash");
  session.type("owner in 500 --purse bank");
  session.type("buy teal 400 --purse visa");
  const std::string year = session.type("year").out;
  CHECK_THAT(year, Contains("as it stands today\n"
                            "  in cars      400.00\n"
                            "  in purses  3,100.00\n"
                            "  owed         400.00  of it 400.00 on cards, in purses too\n"));
  CHECK_THAT(session.type("year --json").out, Contains("\"owed_on_cards\": \"400.00\""));
  session.today = nonrunner::Day{2027, 1, 2};
  session.now = "2027-01-02T10:00:00Z";
  CHECK_THAT(session.type("year 2026").out, Contains("at the end of the year\n"));
}

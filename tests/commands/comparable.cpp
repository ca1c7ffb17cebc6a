#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "commands/counter.h"

using Catch::Matchers::Equals;
using nonrunner::commands::Counter;

TEST_CASE("comparables are pasted in one go, with or without a heading, parted by commas or tabs",
          "[commands]") {
  Counter counter("comparable");
  const std::string headed = counter.file("seen.csv",
                                          "note,price,asking|sold,odometer,year,grade,date\n"
                                          "\"low, but clean\",4250,asking,104000,2013,3,2026-04-02\n"
                                          ",3650.50,sold,121500,2013,,\n");
  CHECK_THAT(counter.run({"comparable", "add", "--csv", headed, "--model", "Kelmore Sprat"}),
             Equals("2 comparables added, 0 were there already\n"));
  CHECK(counter.status == 0);
  const std::string tabbed = counter.file(
      "pasted.csv",
      "4250\tasking\t104000\t2013\t3\t2026-05-01\tlow, but clean\r\n2600\tsold\t151800\t2012\t2\r\n");
  CHECK_THAT(counter.run({"comparable", "add", "--csv", tabbed, "--model", "Kelmore Sprat"}),
             Equals("1 comparable added, 1 was there already\n"));
  CHECK_THAT(counter.run({"comparable", "add", "--csv", counter.file("free.csv", "3000,sold,134600,2011\n")}),
             Equals("1 comparable added, 0 were there already\n"
                    "1 of them name no model and count for every car; --model \"Kelmore Sprat\" would tie "
                    "them to one\n"));
  CHECK_THAT(counter.run({"comparable", "list"}),
             Equals("number     price  kind        mi  year  grade  model          note\n"
                    "     4  3,000.00  sold    134600  2011      3\n"
                    "     3  2,600.00  sold    151800  2012      2  Kelmore Sprat\n"
                    "     2  3,650.50  sold    121500  2013      3  Kelmore Sprat\n"
                    "     1  4,250.00  asking  104000  2013      3  Kelmore Sprat  low, but clean\n"));
  CHECK_THAT(counter.run({"comparable", "remove", "4"}), Equals("comparable 4 is taken out\n"));
  CHECK_THAT(counter.run({"comparable", "remove", "4"}),
             Equals("nonrunner: comparable: there is no number 4, expected one of those listed by: nonrunner "
                    "comparable list\n"));
  CHECK(counter.status == 1);
}

TEST_CASE("a mistake in pasted comparables is named by its row, and none of the rows is kept", "[commands]") {
  Counter counter("comparable-wrong");
  const auto add = [&](const std::string& text) {
    return counter.run({"comparable", "add", "--csv", counter.file("seen.csv", text)});
  };
  const std::string good = "4250,asking,104000,2013,3,2026-04-02\n";
  CHECK_THAT(
      add(good + "0,asking,104000,2013\n"),
      Equals("nonrunner: seen.csv:2: the column \"price\": found \"0\", expected an amount above 0\n"));
  CHECK_THAT(
      add(good + "10,wanted,104000,2013\n"),
      Equals("nonrunner: seen.csv:2: the column \"kind\": found \"wanted\", expected asking or sold\n"));
  CHECK_THAT(add(good + "10,sold,far,2013\n"),
             Equals("nonrunner: seen.csv:2: the column \"odometer\": found \"far\", expected a number of "
                    "miles or kilometres with at most 3 "
                    "decimals, such as 2.25\n"));
  CHECK_THAT(add(good + "10,sold,1000,13\n"),
             Equals("nonrunner: seen.csv:2: the column \"year\": found \"13\", expected the year of the "
                    "model, such as 2012\n"));
  CHECK_THAT(add(good + "10,sold,1000,2013,0.5\n"),
             Equals("nonrunner: seen.csv:2: the column \"grade\": found \"0.5\", expected a grade from 1 "
                    "(rough) to 5 (spotless)\n"));
  CHECK_THAT(add(good + "10,sold,1000,2013,3,2026-05-03\n"),
             Equals("nonrunner: seen.csv:2: the column \"date\": found \"2026-05-03\", expected a day that "
                    "has been, 2026-05-02 at the latest\n"));
  CHECK_THAT(add(good + "10,sold,1000,2013,3,2026-05-01,note,more\n"),
             Equals("nonrunner: seen.csv:2: found 8 cells, expected at most 7\n"));
  CHECK_THAT(add("price,kind,odo,year\n"),
             Equals("nonrunner: seen.csv:1: unknown column \"odo\"; see: nonrunner comparable --help\n"));
  CHECK_THAT(add("price,kind,odometers,year\n"),
             Equals("nonrunner: seen.csv:1: unknown column \"odometers\", did you mean \"odometer\"?\n"));
  CHECK_THAT(add("price,kind,year\n"),
             Equals("nonrunner: seen.csv:1: there is no column \"odometer\", expected it in the heading\n"));
  CHECK_THAT(add(""),
             Equals("nonrunner: seen.csv: there is no row, expected a heading and rows, or rows alone\n"));
  CHECK(counter.status == 1);
  CHECK_THAT(counter.run({"comparable", "list"}),
             Equals("no comparable yet; paste some: nonrunner comparable add --csv -\n"));
  CHECK_THAT(counter.run({"comparable", "ad"}),
             Equals("nonrunner: comparable: found \"ad\", expected add, list or remove, did you mean "
                    "\"add\"?\n"));
  CHECK(counter.status == 2);
}

TEST_CASE("comparables are exported in the form in which they are taken in again", "[commands]") {
  Counter counter("comparable-export");
  counter.run(
      {"comparable", "add", "--csv",
       counter.file("seen.csv", "4250.5,asking,104000.25,2013,2.5,2026-04-02,\"=1+1, \"\"so\"\"\"\n")});
  const std::string folder = counter.file("out", "");
  std::filesystem::remove(folder);
  counter.run({"export", folder});
  CHECK(counter.status == 0);
  CHECK_THAT(counter.run({"comparable", "add", "--csv", folder + "/comparables.csv"}),
             Equals("0 comparables added, 1 was there already\n"
                    "1 of them name no model and count for every car; --model \"Kelmore Sprat\" would tie "
                    "them to one\n"));
  // A book made again from the export has them, with events alone as well.
  const auto listed = counter.run({"comparable", "list", "--json"});
  for (const char* kind : {"out", "out-events"}) {
    const std::string from = counter.file(kind, "");
    if (std::string(kind) == "out-events") {
      std::filesystem::remove(from);
      counter.run({"export", from, "--events"});
    }
    const std::string again = from + ".book";
    std::ostringstream out, err;
    nonrunner::commands::Terminal terminal{out, err, false, false, counter.today, "2026-05-02T12:00:00Z", {}};
    REQUIRE(nonrunner::commands::run({"restore", from, "--book", again}, terminal) == 0);
    out.str("");
    REQUIRE(nonrunner::commands::run({"comparable", "list", "--json", "--book", again}, terminal) == 0);
    CHECK(out.str() == listed);
  }
  // Pasted once more with a model, the row is tied to it and does not count twice.
  counter.run({"comparable", "add", "--csv", folder + "/comparables.csv", "--model", "Kelmore Sprat"});
  const auto tied = nlohmann::json::parse(counter.run({"comparable", "list", "--json"}));
  REQUIRE(tied["comparables"].size() == 1);
  CHECK(tied["comparables"][0]["model"] == "Kelmore Sprat");
}

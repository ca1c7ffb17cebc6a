// The budget of a car in pieces: what is still to come is the work of parting it out, and nothing else.
#include "answers/brindle.h"

using namespace nonrunner;
using namespace nonrunner::answers;
using Catch::Matchers::Contains;

namespace {
struct Parted : Brindle {
  explicit Parted(const std::string& name) : Brindle("pieces-" + name) {
    job_file = file("pieces.toml", brindle_job + "[part_out]\nproceeds = 1200\nhours = 10\ncosts = 60\n");
    buy();
    run({"note", "brindle", "weeping", "--cause", "1", "--date", "2026-04-06"});
  }
  nlohmann::json hours(const std::string& what) {
    const nlohmann::json all = shown();
    for (const auto& each : all["budget"]["hours"])
      if (each["operation"] == what) return each;
    return {};
  }
};
}  // namespace

TEST_CASE("parting out closes every line but its own, which takes the money and the hours of it",
          "[answers]") {
  Parted car("closes");
  const auto number = car.line("thermostat")["number"];
  car.run({"receipt", "brindle", "64", "water pump", "--for", "water pump with gasket", "--purse", "cash",
           "--date", "2026-04-07"});
  car.run({"part-out", "brindle", "1200", "--date", "2026-04-10"});
  REQUIRE(car.status == 0);
  CHECK(car.line("thermostat")["state"] == "not needed");
  CHECK(car.line("thermostat")["number"] == number);
  CHECK(car.line("tyres at the wear bars")["state"] == "not needed");
  CHECK(car.line("water pump with gasket")["state"] == "done");
  CHECK(car.line("parting out")["state"] == "open");
  CHECK(car.line("parting out")["expected"] == "60.00");
  CHECK(car.to_come() == "60.00");
  CHECK(car.hours("parting out")["to_come"] == 10);
  CHECK_THAT(car.said({"show", "brindle"}),
             Contains("the work of parting it out is still to come: 60.00 and 10.0 own hours") &&
                 !Contains("nobody looked"));
  // By its own name, and by its number.
  car.run({"hours", "brindle", "4", "parting out"});
  car.run({"receipt", "brindle", "25", "skip", "--for", "parting out", "--purse", "cash"});
  REQUIRE(car.status == 0);
  CHECK(car.line("parting out")["booked"] == "25.00");
  CHECK(car.to_come() == "35.00");
  CHECK(car.hours("parting out")["to_come"] == 6);
  car.run({"hours", "brindle", "1", "parting out", "--done"});
  CHECK(car.hours("parting out")["to_come"] == 0);
  // What is planned for a later day is needed.
  car.run({"plan", "brindle", "30", "storage"});
  CHECK(car.to_come() == "65.00");
  // And what is planned on that day, but after it.
  car.run({"plan", "brindle", "7", "tarpaulin", "--date", "2026-04-10"});
  CHECK(car.to_come() == "72.00");
  // On a day before it was a car to be put right.
  const auto then = nlohmann::json::parse(car.run({"show", "brindle", "--json", "--on", "2026-04-09"}));
  for (const auto& line : then["budget"]["lines"]) CHECK(line["what"] != "parting out");
  // Taken back, it is one again.
  car.run({"void", "5", "not to pieces", "--never-was"});
  REQUIRE(car.status == 0);
  CHECK(car.line("thermostat")["state"] == "open");
  CHECK(car.line("parting out")["expected"] == "0.00");
}

TEST_CASE("a name that is that of the work of parting out is nothing else's", "[answers]") {
  Parted car("reserved");
  CHECK_THAT(car.run({"plan", "brindle", "30", "parting out"}), Contains("parting out"));
  CHECK(car.status == 1);
}

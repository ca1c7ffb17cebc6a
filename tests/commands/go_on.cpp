// What `go-on` reckons from the appraisal in force and the book.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "commands/counter.h"
#include "text/toml.h"

using namespace nonrunner;
using Catch::Matchers::WithinAbs;
using commands::Counter;
using nlohmann::json;

namespace {

json course(const json& answer, const std::string& name) {
  for (const json& each : answer["courses"])
    if (each["name"] == name) return each;
  return nullptr;
}

void buy_drayman(Counter& counter, const std::string& fee) {
  const std::string job =
      counter.file("job.toml", read_file(NONRUNNER_SOURCE "/sample-jobs/drayman/job.toml"));
  commands::Words words = {"buy", "dray", "2750", "--purse", "cash", "--job", job};
  if (!fee.empty()) words.insert(words.end(), {"--fee", fee});
  counter.run(words);
}

}  // namespace

TEST_CASE("go-on: neither the fees of the purchase nor opening up are still to come once the cause is noted",
          "[commands]") {
  Counter counter("go-on-finished");
  buy_drayman(counter, "title=75");
  // Before a cause is noted opening up is still to come: 18 and (1.5 + 4 x 2.5 + 5) / 6 h at the pace
  // of 1.28333.
  json budget = json::parse(counter.run({"show", "dray", "--json"}))["budget"];
  CHECK(budget["lines"][0]["what"] == "fees");
  CHECK(budget["lines"][0]["to_come"] == "0.00");
  CHECK(budget["lines"][1]["to_come"] == "18.00");
  CHECK_THAT(budget["hours"][0]["to_come"].get<double>(), WithinAbs(16.5 / 6 * 7.7 / 6, 1e-9));

  counter.run({"note", "dray", "rot", "--cause", "rot in frame, tank and lines"});
  const json answer = json::parse(counter.run({"go-on", "dray", "--json"}));
  // Tank 235, pump 168, lines 58, oil 12.80, welding 11900 / 6; the fixes 140, 3560 / 6, 95, 240, 28, 75, 79.
  CHECK(course(answer, "put right")["spend"] == "3707.46");
  // 30, 33 and 29 sixths of an hour for the correction; 7.6, 6.5, 3.1, 6.1, 3.8, 10.4 and 10.9 for the fixes.
  const double hours = (30 + 33 + 29 + 7.6 + 6.5 + 3.1 + 6.1 + 3.8 + 10.4 + 10.9) / 6 * 7.7 / 6;
  CHECK_THAT(course(answer, "put right")["hours"].get<double>(), WithinAbs(hours, 1e-9));
  const json shown = json::parse(counter.run({"show", "dray", "--json"}));
  CHECK(shown["budget"]["cash_to_come"] == "3707.46");
  CHECK_THAT(shown["budget"]["hours_to_come"].get<double>(), WithinAbs(hours, 1e-9));
  CHECK(shown["break_even_price"] == "6592.46");  // 2,825.00 spent, 3,707.46 to come, 60.00 of selling
}

TEST_CASE("go-on: fees that are still to be paid belong to no course", "[commands]") {
  Counter counter("go-on-fees");
  buy_drayman(counter, "");
  counter.run({"note", "dray", "rot", "--cause", "rot in frame, tank and lines"});
  // The purchase brought none: they are still in the break-even price.
  CHECK(json::parse(counter.run({"show", "dray", "--json"}))["budget"]["cash_to_come"] == "4222.46");
  CHECK(course(json::parse(counter.run({"go-on", "dray", "--json"})), "put right")["spend"] == "3707.46");
}

// What `show` says is still to come of a car, and what it takes the break-even price from.
#include <catch2/catch.hpp>

#include "commands/counter.h"

using Catch::Matchers::Contains;
using nonrunner::commands::Counter;

namespace {
class Sprat : public Counter {
 public:
  explicit Sprat(const std::string& name) : Counter(name) {
    run({"buy", "sprat", "1050", "--fee", "title=62", "--purse", "cash", "--date", "2026-04-04", "--job",
         NONRUNNER_SOURCE "/sample-jobs/sprat/job.toml"});
  }
  // The amount beside these words.
  std::string beside(const std::string& words) {
    const std::string text = run({"show", "sprat", "--detail"});
    const auto at = text.find(words);
    if (at == std::string::npos) return "";
    const auto from = text.find_first_not_of(' ', at + words.size());
    return text.substr(from, text.find_first_of(" \n", from) - from);
  }
};
}  // namespace

TEST_CASE("an advert that is booked is one of the costs of selling that were expected", "[commands]") {
  Sprat sprat("advert");
  const std::string before = sprat.beside("BREAK-EVEN PRICE");
  CHECK(before.size() > 4);
  sprat.run({"cost", "sprat", "25", "advert", "--purse", "cash", "--date", "2026-04-20"});
  CHECK(sprat.status == 0);
  CHECK(sprat.beside("selling costs") == "25.00");
  CHECK(sprat.beside("BREAK-EVEN PRICE") == before);
}

TEST_CASE("the likeliest cause stands beside what is to come until one is noted", "[commands]") {
  Sprat sprat("likeliest");
  CHECK_THAT(sprat.run({"show", "sprat"}), Contains("the likeliest"));
  sprat.run({"note", "sprat", "weeping", "--cause", "coolant pump failed"});
  CHECK_THAT(sprat.run({"show", "sprat"}), !Contains("the likeliest") && Contains("still to come"));
}

TEST_CASE("of a car in pieces the work of parting it out is still to come, and nothing else", "[commands]") {
  Sprat sprat("pieces");
  sprat.run({"part-out", "sprat", "900", "--date", "2026-04-20"});
  CHECK_THAT(sprat.run({"show", "sprat"}),
             Contains("NOT YET RECOVERED") &&
                 Contains("the work of parting it out is still to come: 60.00 and "
                          "18.3 own hours") &&
                 !Contains("break-even"));
  CHECK_THAT(sprat.run({"show", "sprat", "--json"}), Contains("\"cash_to_come\": \"60.00\""));
}

TEST_CASE("a day is shown with what was still to come then", "[commands]") {
  Sprat sprat("then");
  sprat.run({"note", "sprat", "weeping", "--cause", "coolant pump failed", "--date", "2026-04-10"});
  const std::string before = sprat.run({"show", "sprat", "--detail", "--json"});
  CHECK_THAT(before, Contains("\"cause_is_noted\": true"));
  CHECK(sprat.run({"show", "sprat", "--detail", "--json", "--on", "2026-05-02"}) == before);  // today
  CHECK_THAT(sprat.run({"show", "sprat", "--json", "--on", "2026-04-09"}),
             Contains("\"cause_is_noted\": false"));
  const std::string file = sprat.file("glass.toml", R"(date = 2026-05-01
supplier = "Tessel Supply"
paid = "cash"
total = 9.00
line = [{ what = "thermostat", unit = 9.00, kind = "part", to = "sprat" }]
)");
  sprat.run({"receipt", "--file", file});
  CHECK(sprat.status == 0);
  CHECK(sprat.run({"show", "sprat", "--json"}) != before);
  std::string then = sprat.run({"show", "sprat", "--json", "--on", "2026-04-30"});
  const auto without_days = [](std::string json) {
    const auto at = json.find("\"days_held\"");
    return json.erase(at, json.find(',', at) - at);
  };
  CHECK(without_days(then) == without_days(before));
}

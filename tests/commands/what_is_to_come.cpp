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

TEST_CASE("nothing is still to come of a car in pieces", "[commands]") {
  Sprat sprat("pieces");
  sprat.run({"part-out", "sprat", "900", "--date", "2026-04-20"});
  CHECK_THAT(sprat.run({"show", "sprat"}), Contains("NOT YET RECOVERED") && !Contains("still to come"));
  CHECK_THAT(sprat.run({"show", "sprat", "--json"}), Contains("\"cash_to_come\": \"0.00\""));
}

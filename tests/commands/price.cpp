#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "chance/three_point.h"
#include "commands/session.h"
#include "commands/sprat_until.h"
#include "resale/asking_price.h"

using namespace nonrunner;
using Catch::Matchers::Equals;
using Catch::Matchers::WithinAbs;
using commands::Counter;

namespace {

// What the sample hatchback would fetch, written a second time: a sound one by its three points, less 391.83
// that stays on it after the fixes; days and holding as in its job file.
resale::Market sprat_market() {
  resale::Market market;
  for (int i = 0; i < 200; ++i)
    market.fetches.push_back(ThreePoint{3200, 3650, 4000}.quantile((i + 0.5) / 200) - 391.83);
  market.sold_on_day.assign(40, 0);
  for (int i = 0; i < 2000; ++i)
    market.sold_on_day[static_cast<std::size_t>(std::ceil(ThreePoint{6, 15, 40}.quantile((i + 0.5) / 2000))) -
                       1] += 1 / 2000.0;
  market.realised = (0.90 + 4 * 0.94 + 0.99) / 6;
  market.per_day = 2.50;
  return market;
}

}  // namespace

TEST_CASE("price plans from the appraisal in force and sets the floor beside every price", "[commands]") {
  Counter counter("price");
  counter.today = Day(2025, 3, 29);
  post_sprat(counter, "do = \"advertised\"");
  const auto json = nlohmann::json::parse(counter.run({"price", "sprat", "--json"}));
  const resale::AskingPlan plan = resale::asking_plan(sprat_market());
  REQUIRE(json["plan"].size() == plan.stages.size());
  CHECK(json["floor"] == "2415.47");  // 2,368.75 that went in, and what the appraisal still expects
  CHECK(json["to_come"] == "46.72");
  const double floor = std::stod(json["floor"].get<std::string>());
  for (std::size_t i = 0; i < plan.stages.size(); ++i) {
    CHECK_THAT(std::stod(json["plan"][i]["price"].get<std::string>()), WithinAbs(plan.stages[i].ask, 0.005));
    CHECK_THAT(std::stod(json["plan"][i]["brings"].get<std::string>()), WithinAbs(plan.stages[i].got, 0.006));
    CHECK_THAT(std::stod(json["plan"][i]["take_from"].get<std::string>()),
               WithinAbs(plan.stages[i].take_from, 0.02));
    CHECK_THAT(std::stod(json["plan"][i]["above_floor"].get<std::string>()),
               WithinAbs(plan.stages[i].got - floor, 0.011));
    CHECK(json["plan"][i]["from"] == Day(2025, 3, 29).plus(plan.stages[i].from_day).iso());
  }
  // Pieces: 908.33 on average less 60.00 and 15.67 x 1.1667 own hours at 20.00 and what holding costs
  // meanwhile.
  const double pieces =
      (600 + 4 * 900 + 1250) / 6.0 - 60 - (10 + 4 * 15 + 24) / 6.0 * (7 / 6.0) * (20 + 7 * 2.5 / 12);
  CHECK_THAT(std::stod(json["part_out"]["leaves"].get<std::string>()), WithinAbs(pieces, 0.006));
  CHECK(json["part_out"]["better_from"].is_null());
  commands::check_approved(
      "price.txt", counter.run({"price", "sprat"}) + "\n" + counter.run({"price", "sprat", "--detail"}));
}

TEST_CASE("a price at which the car has stood lowers what it is thought to fetch", "[commands]") {
  Counter counter("price-stood");
  counter.today = Day(2025, 4, 12);
  post_sprat(counter, "do = \"buyer deposit\"");
  const auto json = nlohmann::json::parse(counter.run({"price", "sprat", "--json"}));
  CHECK(json["advertised"] == "3390.00");
  const resale::AskingPlan plan =
      resale::asking_plan(resale::after_standing(sprat_market(), {{3490, 7}, {3390, 7}}));
  REQUIRE(json["plan"].size() == plan.stages.size());
  CHECK_THAT(std::stod(json["plan"][0]["price"].get<std::string>()), WithinAbs(plan.stages[0].ask, 0.005));
  CHECK_THAT(json["expected"]["days"].get<double>(), WithinAbs(plan.expected_days, 0.01));
}

TEST_CASE("price is for a car that is owned and whose appraisal is kept", "[commands]") {
  Counter counter("price-refused");
  post_sprat(counter);
  CHECK_THAT(counter.run({"price", "sprat"}),
             Equals("nonrunner: price: sprat is sold, expected a car that is owned and not sold yet\n"));
  counter.run({"buy", "pip", "900", "--purse", "bank", "--date", "2026-01-02"});
  CHECK_THAT(counter.run({"price", "pip"}),
             Equals("nonrunner: price: no appraisal of pip that puts it right is kept in the book, expected "
                    "one; keep it with: nonrunner appraise "
                    "JOB.toml --keep\n"));
  CHECK(counter.status == 1);
}

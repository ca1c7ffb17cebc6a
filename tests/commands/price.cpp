#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "appraisal/jobs.h"
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
  CHECK(json["floor"] == "2408.75");  // 2,368.75 that went in, and what the appraisal still expects
  CHECK(json["to_come"] == "40.00");
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
  // Its pieces would leave far less than another buyer: it is those that an offer is set against.
  CHECK(json["take_from"] == json["plan"][0]["take_from"]);
  CHECK(json["better_below"] == "wait");
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
  CHECK_THAT(
      counter.run({"price", "pip"}),
      Equals(
          "nonrunner: price: no appraisal of pip is kept in the book, expected one; keep one with: nonrunner "
          "appraise JOB.toml --keep\n"));
  CHECK(counter.status == 1);
}

namespace {

// The small job of the tests of the appraisal, bought for 400 without its fees.
void buy_pip(Counter& counter, const std::string& job) {
  counter.run({"buy", "pip", "400", "--purse", "bank", "--job", counter.file("pip.toml", job)});
}

}  // namespace

TEST_CASE("a cause that cannot be put right has no price to advertise, and its other courses still",
          "[commands]") {
  Counter counter("price-no-correction");
  buy_pip(counter, appraisal::small_job);
  counter.run({"note", "pip", "it turns", "--cause", "pump"});
  CHECK_THAT(counter.run({"price", "pip"}),
             Equals("nonrunner: price: by the appraisal of " + counter.today.iso() +
                    " pip cannot be put right from \"pump\", since the appraisal has no correction for it, "
                    "expected a car to be sold running; what the other courses bring: nonrunner go-on pip "
                    "--cause \"pump\"\n"));
  CHECK(counter.status == 1);
  const std::string text = counter.run({"go-on", "pip"});
  CHECK(counter.status == 0);
  CHECK(text.find("\nput right: not possible, since the appraisal has no correction for it\n") !=
        std::string::npos);
  const auto json = nlohmann::json::parse(counter.run({"go-on", "pip", "--json"}));
  CHECK(json["not_put_right"] == "the appraisal has no correction for it");
  REQUIRE(json["courses"].size() == 2);
  CHECK(json["best"] == "sell as found");
  CHECK(json["courses"][0]["brings"] == "780.00");  // 800, and 0.2 of the 100 that the rot would take off
  CHECK(nlohmann::json::parse(counter.run({"go-on", "pip", "--cause", "gasket", "--json"}))["not_put_right"]
            .is_null());

  Counter lost("price-lost");
  buy_pip(lost, appraisal::small_job_with("tag = \"pip\"", "tag = \"pip\"\npaper = \"lost\""));
  CHECK(lost.run({"price", "pip"})
            .find("from \"gasket\", the likeliest cause, since the paper is lost, which "
                  "bars the road, expected") != std::string::npos);
  CHECK(lost.run({"go-on", "pip", "--cause", "gasket"})
            .find("\nput right: not possible, since the paper is lost, which bars the road\n") !=
        std::string::npos);
}

TEST_CASE("price says first where the appraisal does not mean to sell the car running", "[commands]") {
  Counter doubtful("price-barred");
  buy_pip(doubtful, appraisal::small_job_with("chance = 0.2", "chance = 0.2\nbars_road = true"));
  CHECK(doubtful.run({"price", "pip"})
            .starts_with(
                "pip: by the appraisal of " + doubtful.today.iso() +
                " \"rot\" with a chance of 20 % bars the road:\n  then it may not be sold running\npip: "));
  Counter barred("price-barred-for-certain");
  buy_pip(barred, appraisal::small_job_with("chance = 0.2", "chance = 1\nbars_road = true"));
  // As where it was found: what is certain needs nobody to look.
  CHECK(barred.run({"price", "pip"}) ==
        "nonrunner: price: by the appraisal of " + barred.today.iso() +
            " pip cannot be put right from \"gasket\", the likeliest cause, since \"rot\" bars the road, "
            "expected a car to be sold running; what the other courses bring: nonrunner go-on pip --cause "
            "\"gasket\"\n");
  Counter sure("price-sure");
  buy_pip(sure, appraisal::small_job);
  CHECK(nlohmann::json::parse(sure.run({"price", "pip", "--json"}))["doubts"].empty());
}

TEST_CASE("a price advertised below the floor is a loss, and price says how much", "[commands]") {
  Counter counter("price-below-floor");
  buy_pip(counter, appraisal::small_job_with("costs = 40\n", "costs = 40\nrate = 0.05\n"));
  counter.run({"advertise", "pip", "400"});
  const auto json = nlohmann::json::parse(counter.run({"price", "pip", "--json"}));
  const double floor = std::stod(json["floor"].get<std::string>());
  REQUIRE(floor > 450);  // advertised it is ready: what was put in, and the costs of selling
  // The commission is smaller too.
  CHECK_THAT(std::stod(json["loss_at_advertised"].get<std::string>()),
             WithinAbs((floor - 400) * 0.95, 0.006));
  const std::string text = counter.run({"price", "pip"});
  CHECK(text.find("\n400 is BELOW THE FLOOR: sold there it LOSES ") != std::string::npos);
  CHECK(text.find("low yet") == std::string::npos);
  counter.run({"advertise", "pip", "2000"});
  const std::string above = counter.run({"price", "pip"});
  CHECK(above.find("BELOW THE FLOOR") == std::string::npos);
  CHECK(above.find("2,000 is low yet; leave it\n  there, or raise it") != std::string::npos);
  CHECK(nlohmann::json::parse(counter.run({"price", "pip", "--json"}))["loss_at_advertised"] == "0.00");
}

TEST_CASE("where nobody is likely to pay any price of the plan it is said to be offers", "[commands]") {
  Counter counter("price-offers");
  // What a sound one fetches is anybody's guess, and a sale takes long.
  buy_pip(counter, appraisal::with(appraisal::small_job_with("sound = 3000", "sound = [1500, 3000, 6000]"),
                                   "days = 10", "days = [10, 20, 50]\nrealised = 0.98"));
  const auto json = nlohmann::json::parse(counter.run({"price", "pip", "--json"}));
  REQUIRE(json["best_offer_chance"].get<double>() > 0.5);
  // What is asked is a price at which somebody comes.
  REQUIRE(json["plan"].size() == 1);
  CHECK(json["plan"][0]["chance"].get<double>() > 0.05);
  const Day by = counter.today.plus(static_cast<int>(std::lround(json["expected"]["days"].get<double>())));
  CHECK(json["best_offer_by"] == by.iso());
  const std::string text = counter.run({"price", "pip"});
  CHECK(text.starts_with("pip: no single price: ask "));
  CHECK(text.find(" to draw offers, and take the best by " + by.iso() + "\n") != std::string::npos);
  CHECK(text.find("advertise at") == std::string::npos);
}

// What the profit workbook is filled with: what it is measured against, and what is said of the car.
#include "answers/profit.h"

#include "answers/pip.h"
#include "answers/year.h"

using namespace nonrunner;
using namespace nonrunner::book;
using answers::Pip;

namespace {

std::vector<std::string> names_of(const std::vector<figures::EstimatedHours>& hours) {
  std::vector<std::string> names;
  for (const auto& each : hours) names.push_back(each.operation);
  return names;
}

std::vector<std::string> names_of(const std::vector<figures::EstimatedCost>& costs) {
  std::vector<std::string> names;
  for (const auto& each : costs) names.push_back(each.name);
  return names;
}

figures::ProfitFigures profit_of(Shop& shop) {
  return answers::profit_figures(shop.book(), "pip", Day(2025, 6, 20));
}

}  // namespace

TEST_CASE(
    "what was planned by hand after the purchase was foreseen neither in money nor in hours, and keeps its "
    "name",
    "[answers][profit]") {
  Pip pip;
  const auto before = profit_of(pip);
  pip.post(
      R"({ do = "plan", date = 2025-06-03, vehicle = "pip", name = "heater matrix", amount = 95.00, hours = 3 },
         { do = "receipt", date = 2025-06-05, supplier = "Harrow", paid = "cash", total = 95.00, line = [
           { what = "heater matrix", amount = 95.00, kind = "part", to = "pip", for = "heater matrix" }] },
         { do = "hours", date = 2025-06-06, vehicle = "pip", operation = "heater matrix", own = 4 })");
  const auto figures = profit_of(pip);
  CHECK(names_of(figures.estimate->costs) == names_of(before.estimate->costs));
  CHECK(names_of(figures.estimate->hours) == names_of(before.estimate->hours));
  CHECK(figures.estimate->cost_headings == std::vector<std::string>{"heater matrix"});
  CHECK(figures.estimate->hours_headings == std::vector<std::string>{"heater matrix"});
  CHECK(figures.lines.back().under.heading == 0);
  CHECK(figures.hours.back().under.heading == 0);
}

TEST_CASE("a plan that took the place of a line of the appraisal leaves what that line was measured against",
          "[answers][profit]") {
  Pip pip;
  const auto before = profit_of(pip);
  pip.post(R"({ do = "plan", date = 2025-06-03, vehicle = "pip", name = "set", amount = 140.00 })");
  const auto figures = profit_of(pip);
  CHECK(names_of(figures.estimate->costs) == names_of(before.estimate->costs));
  CHECK(figures.estimate->cost_headings.empty());
}

TEST_CASE(
    "a car that was bought before its appraisal was kept is described by it, and why nothing is compared is "
    "known",
    "[answers][profit]") {
  Shop shop;
  shop.post(
      R"({ do = "buy", date = 2025-05-20, vehicle = "pip", price = 900.00, purse = "cash" },
         { do = "sell", date = 2025-06-10, vehicle = "pip", price = 1500.00, purse = "cash" })");
  CHECK(profit_of(shop).description.empty());
  CHECK_FALSE(profit_of(shop).no_estimate.first_kept_on);
  answers::keep_job(shop,
                    appraisal::with(answers::certain_job(), "tag = \"pip\"\n",
                                    "tag = \"pip\"\ndescription = \"an invented hatchback\"\ncomplaint = "
                                    "\"overheated\"\n"));
  const auto figures = profit_of(shop);
  CHECK(figures.description == "an invented hatchback");
  CHECK(figures.complaint == "overheated");
  CHECK_FALSE(figures.estimate);
  CHECK(figures.no_estimate.first_kept_on == Day(2025, 6, 1));
  const auto year = answers::year_figures(shop.book(), 2025, shop.today);
  REQUIRE(year.sales.size() == 1);
  CHECK(year.sales[0].description == "an invented hatchback");
  CHECK(year.vehicles[0].description == "an invented hatchback");
}

TEST_CASE("of two parts of one name each core that went back bears the paper on which it was bought",
          "[answers][profit]") {
  Shop shop;
  const auto caliper = [](const std::string& id, const std::string& supplier, const std::string& number) {
    return R"({ do = "receipt", date = 2025-06-02, supplier = ")" + supplier + R"(", number = ")" + number +
           R"(", paid = "cash", total = 40.00, line = [{ id = ")" + id +
           R"(", what = "caliper", unit = 30.00, core = 10.00, kind = "part", to = "pip" }] },)";
  };
  shop.post(R"({ do = "buy", date = 2025-06-01, vehicle = "pip", price = 500.00, purse = "cash" },)" +
            caliper("C1", "Harrow", "11") + caliper("C2", "Cleave Yard", "22") +
            R"({ do = "core back", date = 2025-06-03, line = "C1", amount = 10.00, purse = "cash" },
               { do = "core back", date = 2025-06-04, line = "C2", amount = 10.00, purse = "cash" })");
  std::vector<std::string> back;
  for (const figures::ProfitLine& line : profit_of(shop).lines)
    if (line.kind == figures::MoneyKind::due_back && line.amount > Money{})
      back.push_back(line.day.iso() + " " + line.what + ", " + line.paper);
  CHECK(back == std::vector<std::string>{"2025-06-03 core of caliper went back, Harrow 11",
                                         "2025-06-04 core of caliper went back, Cleave Yard 22"});
}

TEST_CASE("a line is named with the correction that it is of, and each cost stands under its own",
          "[answers][profit]") {
  Pip pip;
  pip.post(
      R"({ do = "finding", date = 2025-06-03, vehicle = "pip", text = "seen", cause = "gasket" },
         { do = "receipt", date = 2025-06-05, supplier = "Harrow", number = "4", paid = "cash", total = 118.00, line = [
           { what = "set", amount = 118.00, kind = "part", to = "pip" }] },
         { do = "receipt", date = 2025-06-05, paid = "cash", total = 6.00, itemised = false, line = [
           { what = "rag", amount = 6.00, kind = "consumable", to = "pip" }] },
         { do = "hours", date = 2025-06-06, vehicle = "pip", operation = "operation 1", own = 8 },
         { do = "trip", date = 2025-06-06, vehicle = "pip", distance = 12, why = "parts" },
         { do = "advertised", date = 2025-06-08, vehicle = "pip", price = 1600.00 },
         { do = "selling cost", date = 2025-06-09, vehicle = "pip", what = "advert", amount = 5.00, purse = "cash" },
         { do = "sell", date = 2025-06-10, vehicle = "pip", price = 1500.00, purse = "cash", commission = 0.1, to = "Ann Ember", odometer = 118302 })");
  const auto figures = profit_of(pip);
  REQUIRE(figures.estimate);
  const auto& costs = figures.estimate->costs;
  CHECK(names_of(costs) == std::vector<std::string>{"price paid", "fees", "opening up", "set (reseal)",
                                                    "wing", "costs of selling"});
  CHECK(names_of(figures.estimate->hours) ==
        std::vector<std::string>{"opening up", "operation 1 (reseal)", "operation 2 (reseal)", "wing"});
  CHECK(costs[3].note == "new");
  CHECK(costs[4].note == "salvage");
  CHECK(figures.estimate->cause_is_noted);
  CHECK(figures.estimate->holding_per_day == usd("3"));
  CHECK(figures.estimate->commission_under == 5u);
  std::string all;
  for (const figures::ProfitLine& line : figures.lines)
    all += line.what + ": " + (line.under.line ? costs[*line.under.line].name : "none") +
           (line.from_shelf ? ", off the shelf" : "") + "\n";
  CHECK(all ==
        "price paid: price paid\n"
        "set: set (reseal)\n"
        "rag: none\n"
        "advert: costs of selling\n"
        "sale price: none\n"
        "commission: costs of selling\n");
  REQUIRE(figures.hours.size() == 1);
  REQUIRE(figures.hours[0].under.line);
  CHECK(figures.estimate->hours[*figures.hours[0].under.line].operation == "operation 1 (reseal)");
  CHECK(figures.seller.empty());
  CHECK(figures.buyer == "Ann Ember");
  CHECK(figures.odometer_sold == "118302");
  CHECK(figures.odometer_bought.empty());
  CHECK(figures.distance == "12 mi");
  CHECK_FALSE(figures.to_come);  // it is sold
}

TEST_CASE("what a car in pieces still needs is nothing, what an owned one needs is still to come",
          "[answers][profit]") {
  Pip pip;
  const auto owned = profit_of(pip);
  CHECK(owned.state == figures::ProfitFigures::State::owned);
  CHECK(owned.expected_price == usd("2940"));
  REQUIRE(owned.to_come);
  pip.post(R"({ do = "part out", date = 2025-06-12, vehicle = "pip", still_brings = 100.00 })");
  const auto parted = profit_of(pip);
  CHECK(parted.state == figures::ProfitFigures::State::in_pieces);
  CHECK_FALSE(parted.expected_price);
  Pip without(appraisal::with(answers::certain_job(), "holding_per_day = 3\n", ""));
  CHECK_FALSE(profit_of(without).estimate->holding_per_day);
}

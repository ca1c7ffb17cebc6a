#include "reports/profit.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>

#include "exact/ends.h"
#include "reports/folder.h"
#include "reports/formula.h"
#include "reports/invented.h"
#include "reports/profit/sums.h"
#include "reports/variance.h"

using namespace nonrunner;
using namespace nonrunner::reports;
namespace fs = std::filesystem;
using invented::usd;

TEST_CASE("a sold vehicle's result is the first one at the sale and the final one with what came after",
          "[reports]") {
  const auto sums = profit::added_up(invented::sold_hatchback());
  CHECK(sums.final.cash_profit == usd("881.94"));
  CHECK(sums.final.cost_of_sale == usd("2343.75"));
  CHECK(sums.final.late == usd("19.81"));
  CHECK(sums.final.recovered_after == usd("22"));
  CHECK(sums.final.profit == usd("121.94"));
  CHECK(sums.final.per_hour == usd("23.21"));
  CHECK(sums.final.break_even == usd("2368.06"));
  CHECK(sums.at_sale.cash_profit == usd("879.75"));
  CHECK(sums.at_sale.profit == usd("135.75"));
  CHECK(sums.at_sale.per_hour == usd("23.65"));
  CHECK(sums.at_sale.break_even == usd("2370.25"));
}

TEST_CASE("a car given away with a commission by share breaks even at what the share leaves of the price",
          "[reports]") {
  ProfitFigures figures = invented::sold_hatchback();
  figures.lines.clear();
  figures.hours.clear();
  figures.commission_rate = Rate::parse("0.1");
  for (const auto& [kind, amount] :
       {std::pair(ProfitKind::purchase, "-100"), std::pair(ProfitKind::sale, "0")}) {
    ProfitLine line;
    line.kind = kind;
    line.amount = usd(amount);
    line.day = Day(2025, 4, 15);
    figures.lines.push_back(line);
  }
  // 100 / (1 - 0.10) = 111.111...: a tenth of nothing is no line of its own.
  CHECK(profit::added_up(figures).final.break_even == usd("111.12"));
  // An engine that brought more than all of it: no price is too low, and none is below nothing.
  ProfitLine engine;
  engine.kind = ProfitKind::recovered;
  engine.amount = usd("300");
  engine.day = Day(2025, 4, 14);
  figures.lines.push_back(engine);
  CHECK(profit::added_up(figures).final.break_even == usd("0"));
}

TEST_CASE("the price that costs ask for is what its formula comes to, and never below nothing", "[reports]") {
  CHECK(formula::price_for(usd("100"), Rate::parse("0.1")) == usd("111.12"));
  CHECK(formula::price_for(usd("-100"), Rate::parse("0.1")) == usd("0"));
}

TEST_CASE("what is recovered beyond the cost is income, and the cost of sale is never below nothing",
          "[reports]") {
  ProfitFigures figures = invented::finished();
  const profit::Outcome before = profit::added_up(figures).final;
  ProfitLine more = figures.lines.back();
  more.after_sale = false;
  more.amount = before.cost_of_sale + usd("40");
  figures.lines.push_back(more);
  const profit::Outcome after = profit::added_up(figures).final;
  CHECK(after.cost_of_sale == Money{});
  CHECK(after.recovered_after == before.recovered_after + usd("40"));
  CHECK(after.cash_profit == before.cash_profit + more.amount);
}

TEST_CASE("what was never bought differs by its quantity alone, and what was not expected too", "[reports]") {
  const auto of_a_sum = [](const char* expected_quantity, const char* price, const char* paid) {
    const Quantity expected = Quantity::parse(expected_quantity);
    return variance(expected, Price::parse(price, Currency()), quantity_of_a_sum(expected, usd(paid)),
                    usd(paid));
  };
  const Variance never = of_a_sum("1", "1983.33", "0");
  CHECK(never.price == usd("0"));
  CHECK(never.quantity == usd("-1983.33"));
  CHECK(never.total == usd("-1983.33"));
  const Variance dearer = of_a_sum("1", "205", "212.50");
  CHECK(dearer.price == usd("7.50"));
  CHECK(dearer.quantity == usd("0"));
  const Variance unexpected = of_a_sum("0", "205", "212.50");
  CHECK(unexpected.price == usd("7.50"));
  CHECK(unexpected.quantity == usd("205"));
  // Hours that were never worked, and hours nobody expected, at another hour now.
  const Variance idle = variance(Hours::parse("2.4"), Price::parse("20", Currency()), Hours(), usd("0"));
  CHECK(idle.price == usd("0"));
  CHECK(idle.quantity == usd("-48"));
  const Variance extra = variance(Hours(), Price::parse("20", Currency()), Hours::parse("2.4"), usd("54"));
  CHECK(extra.price == usd("6"));
  CHECK(extra.quantity == usd("48"));
}

TEST_CASE("a profit workbook written twice from the same figures is the same to the byte", "[reports]") {
  const Folder folder;
  for (const auto& figures : {invented::sold_hatchback(), invented::not_sold_yet(), invented::in_pieces(),
                              invented::finished(), invented::sold_by_agent()}) {
    write_profit(figures, folder.path / "first.xlsx");
    ::setenv("TZ", "Pacific/Kiritimati", 1);
    ::tzset();
    write_profit(figures, folder.path / "second.xlsx");
    ::unsetenv("TZ");
    ::tzset();
    const std::string first = bytes_of(folder.path / "first.xlsx");
    CHECK(first.size() > 10'000);
    CHECK(first == bytes_of(folder.path / "second.xlsx"));
  }
}

TEST_CASE(
    "a profit workbook whose lines do not add up to the book's figure is our mistake and is not written",
    "[reports]") {
  const Folder folder;
  ProfitFigures figures = invented::sold_hatchback();
  figures.cash_profit = usd("881.95");
  CHECK_THROWS_WITH(write_profit(figures, folder.path / "out.xlsx"),
                    "profit workbook of sprat: its lines add up to 881.94, the book says 881.95");
  CHECK(fs::is_empty(folder.path));
}

// For the checks by another program (tests/outside/workbooks.sh): writes each kind of workbook into a folder.
TEST_CASE("invented workbooks are written where the environment says", "[.invented-workbooks]") {
  const char* folder = std::getenv("NONRUNNER_WORKBOOKS");
  REQUIRE(folder != nullptr);
  write_profit(invented::sold_hatchback(), fs::path(folder) / "profit-sold.xlsx");
  // What the program gives for a changed sale price, hour and price of a part. The variances keep the order
  // of their size: a sheet does not sort itself anew.
  ProfitFigures changed = invented::sold_hatchback();
  for (ProfitLine& line : changed.lines) {
    if (line.kind == ProfitKind::sale) line.amount = usd("2795.25");
    if (line.what == "radiator") line.amount = usd("-75.99");
  }
  for (Work& work : changed.hours)
    if (work.operation == "front brakes") work.own = invented::hours("6.75");
  changed.hour = usd("19.45");
  changed.cash_profit = usd("402.32");  // 881.94 - 454.75 - 24.87
  write_profit(changed, fs::path(folder) / "profit-changed.xlsx");
  write_profit(invented::not_sold_yet(), fs::path(folder) / "profit-owned.xlsx");
  write_profit(invented::in_pieces(), fs::path(folder) / "profit-pieces.xlsx");
  write_profit(invented::finished(), fs::path(folder) / "profit-finished.xlsx");
  write_profit(invented::sold_by_agent(), fs::path(folder) / "profit-agent.xlsx");
  write_profit(invented::in_pesos(invented::sold_hatchback()), fs::path(folder) / "profit-pesos.xlsx");
  write_profit(invented::of_many_entries(), fs::path(folder) / "profit-many.xlsx");
  ProfitFigures one_day = invented::not_sold_yet();  // bought, and first appraised two days later
  for (ProfitLine& line : one_day.lines) line.day = *one_day.bought_on;
  one_day.estimate.reset();
  one_day.no_estimate.first_kept_on = one_day.bought_on->plus(2);
  write_profit(one_day, fs::path(folder) / "profit-one-day.xlsx");
  ProfitFigures euros = invented::sold_hatchback();  // A4
  euros.currency = Currency::of("EUR");
  euros.seller = "Ann Ember", euros.vin = "INVENTED-VIN-0001";
  write_profit(euros, fs::path(folder) / "profit-short.xlsx", true);
}

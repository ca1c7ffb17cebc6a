// The workbooks of the year, of a job in work, and of the shopping.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <stdexcept>

#include "reports/folder.h"
#include "reports/invented.h"
#include "reports/invented_strange.h"
#include "reports/invented_year.h"
#include "reports/year/parts.h"

using namespace nonrunner;
using namespace nonrunner::reports;
using invented::usd;

TEST_CASE(
    "the workbooks of the year, of a job and of the shopping are the same to the byte when written twice",
    "[reports]") {
  const Folder folder;
  const auto twice = [&](const auto& write) {
    write(folder.path / "first.xlsx");
    write(folder.path / "second.xlsx");
    const std::string first = bytes_of(folder.path / "first.xlsx");
    return first.size() > 10'000 && first == bytes_of(folder.path / "second.xlsx");
  };
  CHECK(twice([](const auto& out) { write_year(invented::year(), out); }));
  CHECK(twice([](const auto& out) { write_job(invented::job(), out); }));
  CHECK(twice([](const auto& out) { write_shopping(invented::shopping(), out); }));
}

TEST_CASE("a job that brought more than is in it breaks even at nothing", "[reports]") {
  const Folder folder;
  JobFigures figures = invented::job();
  figures.recovered = usd("9000");
  figures.break_even_price = usd("0");
  CHECK_NOTHROW(write_job(figures, folder.path / "out.xlsx"));
  figures.break_even_price = usd("-1");
  CHECK_THROWS(write_job(figures, folder.path / "out.xlsx"));
}

TEST_CASE("a year whose figures contradict each other is our mistake and is not written", "[reports]") {
  const Folder folder;
  const auto out = folder.path / "out.xlsx";
  YearFigures figures = invented::year();
  figures.vehicles[0].closing = usd("0.01");
  CHECK_THROWS_WITH(write_year(figures, out),
                    "year workbook: the inventory of sprat moved by 2343.74, its cost of sales is 2343.75");
  figures = invented::year();
  figures.purses[0].closing += usd("1");
  CHECK_THROWS_WITH(write_year(figures, out),
                    "year workbook: purse cash comes to 1010.87, its balance is 1011.87");
  figures = invented::year();
  figures.stock[0].used += usd("0.01");
  CHECK_THROWS_WITH(write_year(figures, out),
                    "year workbook: stock coolant, gal comes to 28.12, its value is 28.13");
  figures = invented::year();
  figures.trial[0].balance += usd("0.01");
  CHECK_THROWS_WITH(write_year(figures, out),
                    "year workbook: the trial balance has 4301.14 of debits and 4301.13 of credits");
  figures = invented::year();
  figures.put_in += usd("0.01");
  CHECK_THROWS_WITH(write_year(figures, out),
                    "year workbook: the owner's capital moved to 2833.99, what is there comes to 2833.98");
  figures = invented::year();
  figures.result += usd("0.01");
  CHECK_THROWS_WITH(
      write_year(figures, out),
      "year workbook of 2025: the months add up to another result than the book's: 362.71 against 362.72");
  figures = invented::year();
  figures.months[3].sales += usd("1");
  figures.result += usd("1");
  CHECK_THROWS_WITH(write_year(figures, out),
                    "year workbook of 2025: the vehicles add up to another result than the months, overhead, "
                    "tools and looking aside: 799.87 against 800.87");
  CHECK(files_in(folder.path) == 0);
}

TEST_CASE("the most sales in twelve months count those that the year before brought along", "[reports]") {
  using year_sheets::most_in_twelve_months;
  const auto sold = [](const std::vector<const char*>& days) {
    std::vector<Sale> sales;
    for (const char* day : days) sales.push_back({Day::parse(day), "sprat", usd("3250")});
    return sales;
  };
  const auto three_in_march = sold({"2025-03-01", "2025-03-01", "2025-03-01", "2026-06-01"});
  CHECK(most_in_twelve_months(three_in_march, 2025) == 3);
  CHECK(most_in_twelve_months(three_in_march, 2026) == 3);
  CHECK(most_in_twelve_months(three_in_march, 2027) == 1);
  CHECK(most_in_twelve_months(sold({"2025-11-22"}), 2026) == 1);
  // The twelve months that end on the first day of 2026 begin with the second of 2025.
  CHECK(most_in_twelve_months(sold({"2025-01-01"}), 2026) == 0);
  CHECK(most_in_twelve_months(sold({"2025-01-02"}), 2026) == 1);
  CHECK(most_in_twelve_months(sold({"2025-06-01", "2026-01-01"}), 2026) == 2);
  CHECK(most_in_twelve_months(sold({"2025-06-01", "2026-06-01"}), 2026) == 1);
  CHECK(most_in_twelve_months({}, 2026) == 0);
}

TEST_CASE("a job whose lines do not add up to the book's cost is our mistake and is not written",
          "[reports]") {
  const Folder folder;
  JobFigures figures = invented::job();
  figures.cost += usd("0.01");
  CHECK_THROWS_WITH(write_job(figures, folder.path / "out.xlsx"),
                    "job workbook of sprat: its lines add up to 1406.27, the book says 1406.28");
  CHECK(files_in(folder.path) == 0);
}

TEST_CASE("a job whose break-even price is not the book's is our mistake and is not written", "[reports]") {
  const Folder folder;
  JobFigures figures = invented::job();
  // Spent 1,406.27, to come 341.39, selling 15 and 40, less 25 and 100: 1,677.66 / 0.965, rounded up.
  figures.break_even_price = usd("1738.51");
  CHECK_NOTHROW(write_job(figures, folder.path / "out.xlsx"));
  figures.break_even_price = usd("1738.50");
  CHECK_THROWS_WITH(write_job(figures, folder.path / "other.xlsx"),
                    "job workbook of sprat: its break-even price is 1738.51, the book says 1738.50");
  CHECK(files_in(folder.path) == 1);
}

TEST_CASE(
    "a shopping list that does not add up to a car's cost to complete is our mistake and is not written",
    "[reports]") {
  const Folder folder;
  ShoppingFigures figures = invented::shopping();
  figures.vehicles[0].to_complete += usd("0.01");
  CHECK_THROWS_WITH(write_shopping(figures, folder.path / "out.xlsx"),
                    "shopping workbook: the lines of sprat come to 179.72, its cost to complete is 179.73");
  CHECK(files_in(folder.path) == 0);
}

TEST_CASE("a year without anything, a job without anything and an empty shopping list are written",
          "[reports]") {
  const Folder folder;
  YearFigures year;
  year.year = 2025;
  year.made_on = Day(2026, 1, 1);
  CHECK_NOTHROW(write_year(year, folder.path / "year.xlsx"));
  JobFigures job;
  job.tag = "bare";
  job.made_on = Day(2026, 1, 1);
  CHECK_NOTHROW(write_job(job, folder.path / "job.xlsx"));
  ShoppingFigures shopping;
  shopping.made_on = Day(2026, 1, 1);
  CHECK_NOTHROW(write_shopping(shopping, folder.path / "shopping.xlsx"));
}

TEST_CASE("invented workbooks of a shop are written where the environment says", "[.invented-workbooks]") {
  const char* folder = std::getenv("NONRUNNER_WORKBOOKS");
  REQUIRE(folder != nullptr);
  const std::filesystem::path path = folder;
  write_year(invented::year(), path / "year.xlsx");
  YearFigures empty;
  empty.year = 2024;
  empty.made_on = Day(2025, 1, 1);
  write_year(empty, path / "year-empty.xlsx");
  YearFigures brought_along = empty;  // no sale in the year itself
  brought_along.sales = {{Day(2023, 11, 22), "teal", usd("990")}};
  brought_along.sales_limit = 1;
  write_year(brought_along, path / "year-brought-along.xlsx");
  write_job(invented::job(), path / "job.xlsx");
  // What the program gives for a changed price of a part, hour, sale price and commission.
  JobFigures changed = invented::job();
  changed.costs[2].actual = usd("72.35");
  changed.cost += usd("23.36");
  changed.costs[5].budget_price =
      Price::parse("17.255", Currency());  // not bought yet: what is to come follows
  changed.costs[5].to_complete = usd("34.51");
  changed.costs[6].budget_price = Price::parse("210", Currency());
  changed.costs[6].to_complete = usd("210");
  changed.hours[1].budget = invented::hours("9.3");
  changed.hours[1].to_complete = invented::hours("5.4");
  changed.selling_costs_so_far = usd("17.25");
  changed.deposit_kept = usd("80");
  changed.expected_price = usd("2999.99");
  changed.commission_rate = Rate::parse("0.0725");
  write_job(changed, path / "job-changed.xlsx");
  changed.expected_price.reset();
  changed.budget_on.reset();
  write_job(changed, path / "job-unpriced.xlsx");
  write_job(invented::job_in_pieces(), path / "job-in-pieces.xlsx");
  write_shopping(invented::shopping(), path / "shopping.xlsx");
  write_shopping(invented::strangely_named(invented::shopping()), path / "shopping-strange.xlsx");
  write_job(invented::strangely_named(invented::job()), path / "job-strange.xlsx");
  write_year(invented::in_pesos(invented::year()), path / "year-pesos.xlsx");
}

#include "reports/appraisal.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>

#include "reports/folder.h"
#include "reports/invented_appraisal.h"
#include "reports/invented_strange.h"

using namespace nonrunner;
using namespace nonrunner::reports;

TEST_CASE("an appraisal workbook written twice from the same figures is the same to the byte", "[reports]") {
  const Folder folder;
  write_appraisal(invented::appraised(), folder.path / "first.xlsx");
  write_appraisal(invented::appraised(), folder.path / "second.xlsx");
  CHECK(bytes_of(folder.path / "first.xlsx").size() > 10'000);
  CHECK(bytes_of(folder.path / "first.xlsx") == bytes_of(folder.path / "second.xlsx"));
}

TEST_CASE(
    "an appraisal workbook that comes to another figure than the model is our mistake and is not written",
    "[reports]") {
  const Folder folder;
  AppraisalFigures figures = invented::appraised();
  figures.expected_profit += 0.02;
  CHECK_THROWS_AS(write_appraisal(figures, folder.path / "out.xlsx"), std::logic_error);
  CHECK(std::filesystem::is_empty(folder.path));
}

TEST_CASE("the picture of what tests are worth draws the first 32 and says of how many", "[reports]") {
  const auto picture = [](std::size_t tests) {
    const Folder folder;
    AppraisalFigures figures = invented::appraised();
    figures.tests.clear();
    for (std::size_t i = 1; i <= tests; ++i)
      figures.tests.push_back({"test " + std::to_string(i), 10, 50.0 + static_cast<double>(i)});
    write_appraisal(figures, folder.path / "out.xlsx");
    const std::string package = bytes_of(folder.path / "out.xlsx");
    for (int number = 1;; ++number) {
      const std::string chart = part_of(package, "xl/charts/chart" + std::to_string(number) + ".xml");
      if (chart.empty() || chart.find("What each test alone is worth") != std::string::npos) return chart;
    }
  };
  const std::string whole = picture(32), cut = picture(40);
  CHECK(whole.find("its cost taken off; the first") == std::string::npos);
  CHECK(cut.find("What each test alone is worth, its cost taken off; the first 32 of 40<") !=
        std::string::npos);
  // One bar for each of the 32, from the same row on.
  CHECK(whole.find("<c:ptCount val=\"32\"/>") != std::string::npos);
  CHECK(cut.find("<c:ptCount val=\"32\"/>") != std::string::npos);
  CHECK(cut.find("<c:ptCount val=\"40\"/>") == std::string::npos);
  const auto bars = [](const std::string& chart) {
    const std::size_t at = chart.find("<c:f>", chart.find("<c:val>")) + 5;
    return chart.substr(at, chart.find('<', at) - at);
  };
  CHECK(bars(cut) == bars(whole));
}

TEST_CASE("an appraisal workbook of a job with next to nothing in it is written", "[reports]") {
  const Folder folder;
  AppraisalFigures figures;
  figures.tag = "bare";
  figures.made_on = Day(2025, 3, 1);
  figures.hours_per_week = 10;
  figures.states = {{"unknown",
                     "",
                     1,
                     {std::nullopt, std::nullopt, std::nullopt, CourseRow{300, 0, 0, 300, 0, false, {}}}}};
  figures.asking = 200;
  figures.expected_cash_profit = figures.expected_profit = 100;
  figures.walk_away = 300;
  CHECK_NOTHROW(write_appraisal(figures, folder.path / "out.xlsx"));
}

TEST_CASE("invented appraisal workbooks are written where the environment says", "[.invented-workbooks]") {
  const char* folder = std::getenv("NONRUNNER_WORKBOOKS");
  REQUIRE(folder != nullptr);
  const std::filesystem::path path = folder;
  write_appraisal(invented::appraised(), path / "appraisal.xlsx");
  write_appraisal(invented::appraised({1210.5, 3701.11, 23.45, 101.4, 5.05, 430, 1.55, 4.25}),
                  path / "appraisal-changed.xlsx");
  write_appraisal(invented::strangely_named(invented::appraised()), path / "appraisal-strange.xlsx");
  // In a currency without minor units, with as many moves as a job of thirty amounts has, and every case alike.
  AppraisalFigures yen = invented::appraised();
  yen.currency = Currency::of("JPY");
  for (int i = 0; i < 27; ++i)
    yen.moves.push_back({"price of part " + std::to_string(i), 10.0 + i, 20.0 + i, 150.0 + i, 149.0 - i});
  yen.spread.assign(yen.spread.size(), 0);
  yen.spread[7] = 1;
  write_appraisal(yen, path / "appraisal-yen.xlsx");
}

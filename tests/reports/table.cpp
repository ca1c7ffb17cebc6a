// What every workbook is built of: tables, formulas, and what a sheet refuses to be.
#include "reports/table.h"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "exact/thousandths.h"
#include "reports/folder.h"
#include "reports/formula.h"
#include "reports/invented.h"

using namespace nonrunner;
using namespace nonrunner::reports;
using invented::usd;

TEST_CASE("a table stands where it was begun, adds up what it sums, and names its cells", "[reports]") {
  const Folder folder;
  Workbook book(folder.path / "out.xlsx", Currency(), {"one", "", Day(2026, 1, 2)});
  Sheet& sheet = book.sheet("One");
  Table table(sheet, 3,
              {{"What", 20, look::wrapped},
               {"Hours", 10, look::decimal, summed},
               {"Money", 12, look::money, summed}});
  CHECK(table.range(2) == "C5:C5");
  table.row();
  table.text(0, "one");
  table.count(1, Hours::parse("1.25"));
  table.money(2, usd("10.10"));
  table.row();
  table.money(2, table.in(1) + "*2", usd("0.20"));
  CHECK(table.in(2) == "C6");
  CHECK(table.range(2) == "C5:C6");
  CHECK(table.sum(2) == usd("10.30"));
  CHECK(table.close("in all", "none") == Cell{6, 0});
  CHECK_NOTHROW(book.close());
}

TEST_CASE("a cell beside the columns of a table is our mistake", "[reports]") {
  const Folder folder;
  Workbook book(folder.path / "out.xlsx", Currency(), {"one", "", Day(2026, 1, 2)});
  Table table(book.sheet("One"), 0, {{"What", 20, look::text}, {"Money", 12, look::money, summed}});
  table.row();
  CHECK_THROWS_WITH(table.text(2, "too far"), "sheet One: its list has 2 columns, and number 3 is written");
  CHECK_THROWS_WITH(table.money(2, usd("1")), "sheet One: its list has 2 columns, and number 3 is written");
}

TEST_CASE("an empty table says so in a row of its own and still has sums", "[reports]") {
  const Folder folder;
  Workbook book(folder.path / "out.xlsx", Currency(), {"one", "", Day(2026, 1, 2)});
  Table table(book.sheet("One"), 0, {{"What", 20, look::text}, {"Money", 12, look::money, summed}});
  CHECK(table.close("in all", "none") == Cell{2, 0});
  CHECK_NOTHROW(book.close());
}

TEST_CASE("a price that leaves the costs after a commission is rounded up, and never below nothing",
          "[reports]") {
  CHECK(formula::price_for("A1+A2", "$B$3", Currency()) ==
        "MAX(0,ROUNDUP(ROUND(ROUND(A1+A2,2)/(1-$B$3),8),2))");
  CHECK(formula::not_recovered("A1+A2", "$B$3", Currency()) ==
        "IF(ROUND(ROUND(A1+A2,2)/(1-$B$3),8)<0,ROUNDDOWN(ROUND(ROUND(A1+A2,2)/(1-$B$3),8),2),"
        "ROUNDUP(ROUND(ROUND(A1+A2,2)/(1-$B$3),8),2))");
  CHECK(formula::sum("A1:A3", Currency::of("JPY")) == "ROUND(SUM(A1:A3),0)");
}

TEST_CASE("a sheet too wide for its paper and a picture that says nothing are our mistakes", "[reports]") {
  const Folder folder;
  {
    Workbook book(folder.path / "out.xlsx", Currency(), {"one", "", Day(2026, 1, 2)});
    Sheet& sheet = book.sheet("One");
    sheet.widths({75, 75});
    sheet.text({0, 1}, "far out");
    CHECK_THROWS_WITH(book.close(),
                      "sheet One: it is 1060 pixels wide, so that its notes would be printed below 8 points");
  }
  Workbook book(folder.path / "out.xlsx", Currency(), {"one", "", Day(2026, 1, 2)});
  Sheet& sheet = book.sheet("One");
  sheet.chart({0, 0}, Chart{}, 2, 10);
  CHECK_THROWS_WITH(book.close(), "sheet One: the picture at A1 says nothing");
}

#include "text/csv.h"

#include <catch2/catch.hpp>

#include "exact/ends.h"

using namespace nonrunner;
using Rows = std::vector<std::vector<std::string>>;

namespace {
Rows rows_of(const std::string& text) {
  Rows rows;
  read_csv(text, "t.csv", [&](const std::vector<std::string>& cells, int) { rows.push_back(cells); });
  return rows;
}
}  // namespace

TEST_CASE("CSV reads as RFC 4180, section 2, has it") {
  CHECK(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx") == Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(rows_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
        Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(rows_of("\"aaa\",\"b\"\"bb\",\"ccc\"") == Rows{{"aaa", "b\"bb", "ccc"}});
  CHECK_THROWS_AS(rows_of("aaa,\"bbb\r\n"), Refusal);
  CHECK_THROWS_AS(rows_of("aaa,17\" wheels"), Refusal);
}

TEST_CASE("cells parted by tabs keep a quote inside, as a sheet copies them") {
  Rows rows;
  read_csv(
      "a\t17\" wheels\tb\n\"x\ty\"\tz\n", "t", [&](const auto& cells, int) { rows.push_back(cells); }, '\t');
  CHECK(rows == Rows{{"a", "17\" wheels", "b"}, {"x\ty", "z"}});
}

TEST_CASE("a cell that a spreadsheet would evaluate gets an apostrophe, and reading takes it off again") {
  CHECK(csv_text("=1+1") == "'=1+1");
  CHECK(csv_text("+49 1") == "'+49 1");
  CHECK(csv_text("-5") == "'-5");
  CHECK(csv_text("@SUM(A1)") == "'@SUM(A1)");
  CHECK(csv_text("'=1") == "''=1");  // an apostrophe of its own stays
  CHECK(csv_text("it's 1 = 1") == "it's 1 = 1");
  for (const std::string text :
       {"=1+1", "+49 1", "-5",     "@x",    "\t=1",  "\r=1", "'=1",  "''=1", "'",   "''",
        "",     "'a",    " front", "back ", "\ttab", "a,b",  "a\"b", "a\nb", " =1", "é, ü"})
    CHECK(without_csv_apostrophe(rows_of("x," + csv_text(text) + ",y").at(0).at(1)) == text);
}

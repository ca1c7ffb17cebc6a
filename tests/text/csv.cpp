#include "text/csv.h"

#include <catch2/catch.hpp>
#include <sstream>

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

TEST_CASE("where semicolons part the cells a comma is a decimal one, and what may be thousands is refused") {
  for (const auto& [typed, read] : std::initializer_list<std::pair<const char*, const char*>>{
           {"12,50", "12.50"},
           {"0,500", "0.500"},
           {",5", "0.5"},
           {"1.010,40", "1010.40"},
           {"-1.234.567,8", "-1234567.8"},
           {"+2,5", "+2.5"},
           {"1234,567", "1234.567"},
           {"12.50", "12.50"},
           {"45", "45"},
           {"12.34,5", "12.34,5"},  // no number: for the reader of the column to refuse
           {"1,2,3", "1,2,3"},
           {"", ""}})
    CHECK(csv_number(typed, ';') == read);
  for (const char* either : {"1,234", "1.234", "-12,500", "999.999"})
    CHECK_THROWS_WITH(csv_number(either, ';'),
                      "found \"" + std::string(either) +
                          "\", which may be thousands or thousandths; write it without the mark");
  for (const char* plain : {"1,234", "1.234", "12,50"}) CHECK(csv_number(plain, ',') == plain);
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
  CHECK(csv_text("\u3000\uFF1DA1") == "'\u3000\uFF1DA1");
  CHECK(csv_text("'=1") == "''=1");  // an apostrophe of its own stays
  CHECK(csv_text("it's 1 = 1") == "it's 1 = 1");
  for (const std::string text : {"=1+1",      "+49 1",   "-5",       "@x",   "\t=1", "\r=1", "'=1", "''=1",
                                 " \u00A0=1", "\uFF1D1", "'\uFF0B1", "'",    "''",   "",     "'a",  " front",
                                 "back ",     "\ttab",   "a,b",      "a\"b", "a\nb", " =1",  "é, ü"})
    CHECK(without_csv_apostrophe(rows_of("x," + csv_text(text) + ",y").at(0).at(1)) == text);
}

namespace {
std::string refused(const std::string& text) {
  try {
    std::istringstream in(text);
    read_csv(in, "list.csv", [](const auto&, int) {});
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "read";
}
}  // namespace

TEST_CASE("a list that is not UTF-8 is refused by its line and column", "[text]") {
  CHECK(
      refused("a,b\nx,\u00E9 Caf\xE9 Yard\n") ==
      "list.csv:2: the byte e9 in column 8 is not UTF-8, expected UTF-8 text; save the list as UTF-8 and try "
      "again");
  CHECK(refused("\xED\xA0\x80").substr(0, 34) == "list.csv:1: the byte ed in column ");
  CHECK(refused("\xC0\xAF").substr(0, 34) == "list.csv:1: the byte c0 in column ");
  CHECK(refused("\xEF\xBB\xBF"
                "a,\u00E9\n") == "read");
}

TEST_CASE("a row that has no end is refused before it fills the memory", "[text]") {
  const std::string too_long =
      "the row is longer than 1 MiB, expected one row a line; is a quote not closed?";
  CHECK(refused("a,b\n" + std::string(2'000'000, ',')) == "list.csv:2: " + too_long);
  std::string open = "a,b\n\"";
  for (int i = 0; i < 20'000; ++i)
    open += "one line of sixty-four characters, none of which closes a quote\n";
  CHECK(refused(open).find(too_long) != std::string::npos);
  CHECK(refused("a,b\n" + std::string(500'000, ',') + "\n" + std::string(600'000, ',')) == "read");
}

TEST_CASE("a row after an empty line is named by its own line", "[text]") {
  std::vector<int> lines;
  read_csv("a,b\n\n\nc,\"d\ne\"\nf,g\n", "t", [&](const auto&, int line) { lines.push_back(line); });
  CHECK(lines == std::vector<int>{1, 4, 6});
}

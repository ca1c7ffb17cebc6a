// On how wide a screen things are shown: words are broken elsewhere, figures never.
#include "commands/screen.h"

#include <catch2/catch.hpp>
#include <sstream>

#include "commands/columns.h"
#include "commands/door.h"
#include "commands/season.h"
#include "text/unicode.h"

using namespace nonrunner;
using namespace nonrunner::commands;

namespace {

// What is longer than the screen; words and numbers that stand alone on their line aside.
std::string too_wide(const std::string& text, std::size_t columns) {
  std::istringstream in(text);
  std::string wide;
  for (std::string line; std::getline(in, line);) {
    if (line.rfind("$ ", 0) == 0 || line.rfind("nonrunner: ", 0) == 0) continue;
    if (shown_width(line) > columns) wide += line + "\n";
  }
  return wide;
}

// Every amount of the text, whole: 1,234.56.
std::vector<std::string> numbers_in(const std::string& text) {
  std::vector<std::string> all;
  std::string now;
  for (const char c : text + " ") {
    const bool inside = (c >= '0' && c <= '9') || ((c == ',' || c == '.' || c == '-') && !now.empty());
    if (inside) {
      now += c;
    } else if (!now.empty()) {
      while (!now.empty() && !(now.back() >= '0' && now.back() <= '9')) now.pop_back();
      if (now.find('.') != std::string::npos) all.push_back(now);
      now.clear();
    }
  }
  std::sort(all.begin(), all.end());
  return all;
}

const std::vector<std::string> screens = {"vehicles",
                                          "show pip",
                                          "show teal --detail",
                                          "due",
                                          "tray",
                                          "purses",
                                          "stock",
                                          "entries teal",
                                          "entries pip --lines",
                                          "entries gull --full",
                                          "year 2026",
                                          "price teal",
                                          "set"};

}  // namespace

TEST_CASE("the width is what COLUMNS says, else the terminal, from 40 to 200, else 80", "[commands]") {
  CHECK(columns_said("", 0) == 0);
  CHECK(columns_said("", 120) == 120);
  CHECK(columns_said("64", 120) == 64);
  CHECK(columns_said("12", 0) == 40);
  CHECK(columns_said("", 20) == 40);
  CHECK(columns_said("99999999999", 0) == 200);
  CHECK(columns_said("wide", 100) == 100);
  CHECK(columns_said("-5", 0) == 0);
  CHECK(screen_columns() == 80);
  {
    const Screen narrow(40);
    CHECK(screen_columns() == 40);
    const Screen wide(200);
    CHECK(screen_columns() == 200);
    CHECK(prose_columns() == 100);
  }
  CHECK(screen_columns() == 80);
}

TEST_CASE("a table that is too wide goes on below, and cuts no number", "[commands]") {
  Columns columns("llrr");
  columns.row({"vehicle", "what was bought for it", "amount", "sum"});
  columns.row({"pip", "front brake discs and pads, a pair", "1,234.56", "-12,345.67"});
  columns.row({"teal", "", "9.00", ""});
  CHECK(columns.text(80) ==
        "vehicle  what was bought for it                amount         sum\n"
        "pip      front brake discs and pads, a pair  1,234.56  -12,345.67\n"
        "teal                                             9.00\n");
  CHECK(columns.text(50) ==
        "vehicle  what was bought ...    amount         sum\n"
        "pip      front brake disc...  1,234.56  -12,345.67\n"
        "teal                              9.00\n");
  CHECK(columns.text(40) ==
        "vehicle\n"
        "  what was boug...    amount         sum\n"
        "pip\n"
        "  front brake d...  1,234.56  -12,345.67\n"
        "teal\n"
        "                        9.00\n");
  Columns remarks("ll");
  remarks.row({"price 12,345.67 and more", "of which 1,234.56 were fees"});
  CHECK(remarks.text(40) == "price 12,345.67 and more\n  of which 1,234.56 were fees\n");
  Columns long_one("l");
  long_one.row({"the price was, after much to and fro, 12,345.67"});
  CHECK(long_one.text(44) == "the price was, after much to and fro, ...\n");
}

TEST_CASE("a line that nobody laid out goes on below, broken at a blank", "[commands]") {
  std::ostringstream behind;
  {
    Door door(behind, Door::Kind::text, 20);
    std::ostream out(&door);
    out << "  one two three four five\nshort\n1234567890123456789012345 x\n";
  }
  CHECK(behind.str() == "  one two three four\n    five\nshort\n1234567890123456789012345\n  x\n");
}

TEST_CASE("screens at 40 and 160 columns read as approved, fit, and hold the figures of the one of 80",
          "[commands][approved]") {
  Season season;
  std::string usual;
  for (const std::size_t columns : {std::size_t{80}, std::size_t{40}, std::size_t{160}}) {
    season.columns = columns;
    const std::string text = season.dialogue(screens);
    CHECK(too_wide(text, columns) == "");
    if (columns == 80)
      usual = text;
    else
      check_approved(columns == 40 ? "screens-40.txt" : "screens-160.txt", text);
    const auto here = numbers_in(text), there = numbers_in(usual);
    CHECK(std::includes(here.begin(), here.end(), there.begin(), there.end()));
  }
}

TEST_CASE("an appraisal fits a screen of 40 columns, its large figure as it is", "[commands][approved]") {
  Season season;
  season.columns = 40;
  const std::string text = season.dialogue({"appraise " NONRUNNER_SOURCE "/sample-jobs/sprat/job.toml"});
  CHECK(too_wide(text, 40) == "");
  check_approved("appraise-40.txt", text.substr(text.find('\n') + 1));
}

// What the commands print, kept as files and compared whole.
#include <sstream>

#include "commands/desk.h"
#include "commands/season.h"

using namespace nonrunner;
using namespace nonrunner::commands;

namespace {

// Lines that are wider than a terminal of 80 columns; what was typed and error lines aside.
std::string too_wide(const std::string& text) {
  std::istringstream in(text);
  std::string wide;
  for (std::string line; std::getline(in, line);)
    if (shown_width(line) > 80 && line.rfind("$ ", 0) != 0 && line.rfind("nonrunner: ", 0) != 0)
      wide += line + "\n";
  return wide;
}

}  // namespace

TEST_CASE("the help of the program and of each command reads as approved and fits 80 columns",
          "[commands][approved]") {
  Session session;
  std::vector<std::string> lines = {"--help", "help sell", "--version"};
  for (const Command& command : all()) lines.push_back(command.usage.command + " --help");
  const std::string text = session.dialogue(lines);
  check_approved("help.txt", text);
  CHECK(too_wide(text) == "");
}

TEST_CASE("a season at the desk reads as approved", "[commands][approved]") {
  const Season season;
  check_approved("season.txt", season.story);
  CHECK(too_wide(season.story) == "");
}

TEST_CASE("the screens of a book read as approved and fit 80 columns", "[commands][approved]") {
  Season season;
  const std::string text = season.dialogue({
      "vehicles",
      "show pip",
      "show pip --on 2026-03-15",
      "show teal",
      "show gull",
      "show wren",
      "due",
      "due --on 2026-03-14",
      "tray",
      "purses",
      "purses --on 2026-02-28",
      "stock",
      "entries",
      "entries teal",
      "entries pip --lines",
      "set",
      "clock show",
      "check",
  });
  check_approved("screens.txt", text);
  CHECK(too_wide(text) == "");
}

TEST_CASE("what is machine-readable reads as approved", "[commands][approved]") {
  Season season;
  check_approved("json.txt", season.dialogue({
                                 "vehicles --json",
                                 "show pip --json",
                                 "show teal --json",
                                 "show wren --json",
                                 "due --json",
                                 "tray --json",
                                 "purses --json",
                                 "stock --json",
                                 "entries gull --json",
                                 "entries teal --lines --json",
                                 "set --json",
                                 "clock show --json",
                                 "check --json",
                                 "note pip \"scratch on the wing\" --json",
                                 "receipt --csv SHOP/papers.csv --json",
                                 "post SHOP/events.toml --json",
                                 "backup SHOP/copy.book --json",
                                 "export SHOP/export --json",
                                 "restore SHOP/export --book SHOP/again.book --json",
                                 "workbook profit pip SHOP/pip.xlsx --json",
                                 "start SHOP/new.book --json",
                                 "set hour 25 --json",
                                 "close 2026-04-01 --json",
                                 "clock off --json",
                             }));
}

TEST_CASE("files that go out and come back read as approved", "[commands][approved]") {
  Season season;
  check_approved("files.txt", season.dialogue({
                                  "backup SHOP/copy.book",
                                  "backup SHOP/copy.book",
                                  "export SHOP/export",
                                  "export SHOP/export",
                                  "export SHOP/events --events",
                                  "restore SHOP/copy.book --book SHOP/from-copy.book",
                                  "restore SHOP/export --book SHOP/from-export.book",
                                  "restore SHOP/export --book SHOP/from-export.book",
                                  "restore SHOP/title.jpg --book SHOP/x.book",
                                  "restore SHOP/none --book SHOP/x.book",
                                  "check --book SHOP/from-copy.book",
                                  "vehicles --book SHOP/from-export.book",
                                  "workbook profit pip SHOP/pip.xlsx",
                                  "workbook profit pop SHOP/pip.xlsx",
                                  "workbook profits pip SHOP/pip.xlsx",
                              }));
}

TEST_CASE("an empty book says what to do first", "[commands][approved]") {
  Session session;
  check_approved("empty.txt", session.dialogue({
                                  "vehicles",
                                  "start SHOP/shop.book",
                                  "start SHOP/shop.book",
                                  "vehicles",
                                  "show pip",
                                  "entries",
                                  "entries --lines",
                                  "due",
                                  "tray",
                                  "purses",
                                  "stock",
                                  "set",
                                  "clock show",
                                  "clock off",
                                  "check",
                                  "void 1 --why \"nothing\"",
                              }));
}

TEST_CASE("mistakes read as approved", "[commands][approved]") {
  Season season;
  check_approved("mistakes.txt", season.dialogue({
                                     "",
                                     "vehicls",
                                     "sel pip 2950",
                                     "frobnicate",
                                     "help frobnicate",
                                     "sell pip 2950 --comission 3% --purse cash",
                                     "sell pip",
                                     "sell pip 29,50 --purse cash",
                                     "sell pip 2950 --date 02/05/2026 --purse cash",
                                     "sell pip 2950 --purse cash",
                                     "sell pop 2950 --purse cash",
                                     "sell wren 10 --purse cash",
                                     "sell teal 1000 --commission 150% --purse cash",
                                     "sell teal 1000 --cost advert --purse cash",
                                     "buy tael 500 --purse cash",
                                     "buy teal 500 --purse cash",
                                     "buy Teal 500 --purse cash",
                                     "buy finch 500 --purse bamk",
                                     "receipt pip",
                                     "receipt teal 45 lamp --kind prat",
                                     "receipt teal 45 lamp --source salvge",
                                     "receipt --file SHOP/none.toml",
                                     "receipt --file SHOP/paper.toml",
                                     "receipt --file SHOP/title.jpg",
                                     "receipt --csv SHOP/title.jpg",
                                     "return R05.9",
                                     "return R05.3 --qty 3",
                                     "return R05.3 --qty two",
                                     "core R05.2",
                                     "core clutch --amount 26",
                                     "draw teal glove 1",
                                     "draw teal gloves 81",
                                     "count gloves -1",
                                     "hours teal x clutch",
                                     "hours teal 0 clutch",
                                     "clock on teal bleeding",
                                     "clock maybe",
                                     "void 41 --why again",
                                     "void 46 --why again",
                                     "void x --why y",
                                     "void 12 --why \"not mine\"",
                                     "void 12",
                                     "trip teal 0 parts",
                                     "trip teal",
                                     "pass teal",
                                     "pass wren",
                                     "write-off pip",
                                     "deposit teal 10 --kept",
                                     "deposit teal 10 --kept --back",
                                     "pay 500 \"Millgate Parts\" --purse cash",
                                     "pay 5 \"Milgate Parts\" --purse cash",
                                     "tool 60 \"presure-fill tool\" --back --purse cash",
                                     "transfer teal teal 5 lamp",
                                     "transfer teal gull 9999 lamp",
                                     "move 5 cash cash",
                                     "owner up 5",
                                     "note teal \"\"",
                                     "attach teal SHOP/none.jpg",
                                     "attach teal SHOP",
                                     "set houre 25",
                                     "set hour much",
                                     "set hour",
                                     "close 2026-03-30",
                                     "close soon",
                                     "owner in 5 --date 2026-03-31 --purse cash",
                                     "show",
                                     "show pop",
                                     "show pip --on yesterday",
                                     "entries pop",
                                     "start SHOP/x.book --currency USB",
                                     "start SHOP/x.book --distance miles",
                                     "post SHOP/none.toml",
                                     "post SHOP/papers.csv",
                                     "check --book SHOP/title.jpg",
                                     "check --book SHOP/none.book",
                                     "vehicles --book",
                                 }));
}

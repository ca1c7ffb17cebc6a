#include <algorithm>
#include <nlohmann/json.hpp>

#include "book/names.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/profit_figures.h"
#include "exact/nearest.h"

namespace nonrunner::commands {

namespace {

const std::vector<std::string> kinds = {"profit"};

int run_workbook(const Given& given, Terminal& terminal) {
  const std::string& kind = given.word(0);
  if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end())
    given.wrong("found \"" + kind + "\", expected profit" + did_you_mean(kind, kinds));
  if (given.count() != 3) given.wrong("found " + std::to_string(given.count()) + " words, expected " + kind + " TAG OUT.xlsx");
  const book::Book book = open_book(given, terminal);
  book::know_vehicle(book, "workbook", given.word(1));
  const std::filesystem::path out = given.word(2);
  reports::write_profit(profit_figures(book, given.word(1), terminal.today), out);
  if (given.json())
    terminal.out << nlohmann::ordered_json{{"written", out.string()}}.dump(2) << "\n";
  else
    terminal.out << out.string() << ": the profit of " << given.word(1) << "\n";
  return 0;
}

}  // namespace

extern const Command workbook;
const Command workbook{{"workbook", "KIND [TAG] OUT.xlsx", "a spreadsheet to decide with and to hand on", "nonrunner workbook profit pip pip-profit.xlsx", {}, true,
                        "KIND: profit (what one vehicle brought, TAG)."},
                       run_workbook};

}  // namespace nonrunner::commands

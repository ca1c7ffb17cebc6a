#include <algorithm>

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/workbook_place.h"
#include "commands/year.h"
#include "exact/nearest.h"
#include "page/workbooks.h"
#include "words/book_json.h"

namespace nonrunner::commands {

namespace {

int run_workbook(const Given& given, Terminal& terminal) {
  const std::string& kind = given.word(0);
  const std::vector<std::string>& kinds = page::workbook_kinds();
  if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end())
    given.wrong("found \"" + kind + "\", expected appraisal, profit, job, year or shopping" +
                did_you_mean(kind, kinds));
  const page::WorkbookWanted asked{kind, "", given.flag("short"), given.flag("initials")};
  if (const std::string none = page::not_of_its_kind(asked); !none.empty())
    given.wrong(
        fmt::format("found --{} with {}, expected it with {} only", none, kind, page::kinds_with(none)));
  const bool needs_word = kind != "shopping";
  if (given.count() < (needs_word ? 3 : 2))
    given.wrong(fmt::format("found {} words, expected {} {} OUT.xlsx", given.count(), kind,
                            kind == "year" ? "YEAR" : "TAG"));
  const std::string about = given.count() == 3 ? given.word(1) : "";
  const std::filesystem::path out = workbook_place(given, given.word(given.count() - 1));
  if (kind == "year") year_typed(given, about);
  const book::Book book = open_book(given, terminal);
  page::write_workbook(book, {kind, about, asked.is_short, asked.initials}, terminal.today, out);
  if (given.json())
    terminal.out << words::facts_as_json({{"written", out.string()}});
  else
    terminal.out << fmt::format("{}: {}{}\n", out.string(), kind, about.empty() ? "" : " of " + about);
  return 0;
}

}  // namespace

extern const Command workbook;
const Command workbook{
    {"workbook",
     "KIND [TAG] OUT.xlsx",
     "a spreadsheet to decide with and to hand on",
     "nonrunner workbook profit pip pip-profit.xlsx",
     {{"over", "", "write over a workbook that was changed since"},
      {"short", "", "profit: three sheets for a bank or a buyer, with nothing to change"},
      {"initials", "", "profit, year: of buyers, sellers and helpers, in the place of their names"}},
     true,
     "KIND TAG:  appraisal TAG what is kept of it, with what was found since\n"
     "           profit TAG    what one vehicle brought\n"
     "           job TAG       a car in work: budget against actual, what is to come\n"
     "           year YEAR     inventory, cost of sales, purses, trips, trial balance\n"
     "           shopping      what to buy, by place; of all owned cars, or of TAG"},
    run_workbook};

}  // namespace nonrunner::commands

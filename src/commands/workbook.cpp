#include <algorithm>

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/workbook_place.h"
#include "commands/year.h"
#include "exact/nearest.h"
#include "text/counted.h"
#include "words/book_json.h"
#include "workbooks/write.h"

namespace nonrunner::commands {

namespace {

int run_workbook(const Given& given, Terminal& terminal) {
  using workbooks::Kind;
  const std::string& typed = given.word(0);
  const auto kind = workbooks::kind_of(typed);
  if (!kind)
    given.wrong("found \"" + typed + "\", expected appraisal, profit, job, year or shopping" +
                did_you_mean(typed, workbooks::kinds()));
  workbooks::Wanted wanted{*kind, "", 0, given.flag("short"), given.flag("initials")};
  if (const std::string none = workbooks::not_of_its_kind(wanted); !none.empty())
    given.wrong(fmt::format("found --{} with {}, expected it with {} only", none, typed,
                            workbooks::kinds_with(none)));
  const bool of_year = *kind == Kind::year;
  if (given.count() < (*kind == Kind::shopping ? 2 : 3))
    given.wrong(fmt::format("found {}, expected {} {} OUT.xlsx", counted(given.count(), "word"), typed,
                            of_year ? "YEAR" : "TAG"));
  const std::string about = given.count() == 3 ? given.word(1) : "";
  const std::filesystem::path out = workbook_place(given, given.word(given.count() - 1));
  if (of_year)
    wanted.year = year_typed(given, about, terminal.today);
  else
    wanted.about = about;
  const book::Book book = open_book(given, terminal);
  workbooks::write(book, wanted, terminal.today, out);
  if (given.json())
    terminal.out << words::facts_as_json({{"written", out.string()}});
  else
    terminal.out << fmt::format("{}: {}{}\n", out.string(), typed, about.empty() ? "" : " of " + about);
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

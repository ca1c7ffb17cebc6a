#include <algorithm>

#include "answers/book_state.h"
#include "answers/job.h"
#include "answers/profit.h"
#include "answers/shopping.h"
#include "answers/year.h"
#include "book/events/named.h"
#include "book/ledger/names.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/workbook_place.h"
#include "commands/year.h"
#include "exact/nearest.h"
#include "reports/appraisal.h"
#include "reports/job.h"
#include "reports/profit.h"
#include "reports/shopping.h"
#include "reports/year.h"
#include "words/book_json.h"
#include "words/kept_appraisal.h"

namespace nonrunner::commands {

namespace {

const std::vector<std::string> kinds = {"appraisal", "profit", "job", "year", "shopping"};

template <class Figures>
void write_of(const book::Book& book, Figures figures,
              void (*write)(const Figures&, const std::filesystem::path&), const std::filesystem::path& out) {
  figures.book = answers::state_of(book);
  write(figures, out);
}

// A buyer's and a helper's names are their own: to hand a workbook on, their initials will do.
void names_as_initials(figures::YearFigures& figures) {
  for (figures::Sale& sale : figures.sales) sale.buyer = book::initials_of(sale.buyer);
  for (figures::YearHelper& helper : figures.helpers) helper.name = book::initials_of(helper.name);
}

int run_workbook(const Given& given, Terminal& terminal) {
  const std::string& kind = given.word(0);
  if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end())
    given.wrong("found \"" + kind + "\", expected appraisal, profit, job, year or shopping" +
                did_you_mean(kind, kinds));
  const bool needs_word = kind != "shopping";
  if (given.count() < (needs_word ? 3 : 2))
    given.wrong(fmt::format("found {} words, expected {} {} OUT.xlsx", given.count(), kind,
                            kind == "year" ? "YEAR" : "TAG"));
  const std::string about = given.count() == 3 ? given.word(1) : "";
  const std::filesystem::path out = workbook_place(given, given.word(given.count() - 1));
  const int year = kind == "year" ? year_typed(given, about) : 0;
  const book::Book book = open_book(given, terminal);
  if (kind != "year" && !about.empty()) book::know_vehicle(book, "workbook", about);
  const Day today = terminal.today;
  if (kind == "appraisal")
    write_of(book, words::kept_appraisal_figures(book, about, today), reports::write_appraisal, out);
  if (kind == "profit") {
    figures::ProfitFigures figures = answers::profit_figures(book, about, today);
    if (given.flag("initials")) {
      figures.seller = book::initials_of(figures.seller);
      figures.buyer = book::initials_of(figures.buyer);
    }
    figures.book = answers::state_of(book);
    reports::write_profit(figures, out, given.flag("short"));
  }
  if (kind == "job") write_of(book, answers::job_figures(book, about, today), reports::write_job, out);
  if (kind == "year") {
    figures::YearFigures figures = answers::year_figures(book, year, today);
    if (given.flag("initials")) names_as_initials(figures);
    write_of(book, figures, reports::write_year, out);
  }
  if (kind == "shopping")
    write_of(book, answers::shopping_figures(book, about, today), reports::write_shopping, out);
  if (given.json())
    terminal.out << words::facts_as_json({{"written", out.string()}});
  else
    terminal.out << fmt::format("{}: {}{}\n", out.string(), kind, about.empty() ? "" : " of " + about);
  return 0;
}

}  // namespace

extern const Command workbook;
const Command workbook{{"workbook",
                        "KIND [TAG] OUT.xlsx",
                        "a spreadsheet to decide with and to hand on",
                        "nonrunner workbook profit pip pip-profit.xlsx",
                        {{"over", "", "write over a workbook that was changed since"},
                         {"short", "", "profit: three sheets for a bank or a buyer, with nothing to change"},
                         {"initials", "", "of buyers, sellers and helpers, in the place of their names"}},
                        true,
                        "KIND TAG:  appraisal TAG what is kept of it, with what was found since\n"
                        "           profit TAG    what one vehicle brought\n"
                        "           job TAG       a car in work: budget against actual, what is to come\n"
                        "           year YEAR     inventory, cost of sales, purses, trips, trial balance\n"
                        "           shopping      what to buy, by place; of all owned cars, or of TAG"},
                       run_workbook};

}  // namespace nonrunner::commands

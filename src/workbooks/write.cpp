#include "workbooks/write.h"

#include <algorithm>

#include "answers/book_state.h"
#include "answers/job.h"
#include "answers/profit.h"
#include "answers/shopping.h"
#include "answers/year.h"
#include "book/events/named.h"
#include "book/ledger/names.h"
#include "reports/appraisal.h"
#include "reports/job.h"
#include "reports/profit.h"
#include "reports/shopping.h"
#include "reports/year.h"
#include "words/due.h"
#include "words/kept_appraisal.h"

namespace nonrunner::workbooks {

namespace {

using Path = std::filesystem::path;

template <class Figures>
void write_of(const book::Book& book, Figures figures, void (*write)(const Figures&, const Path&),
              const Path& out) {
  figures.book = answers::state_of(book);
  write(figures, out);
}

// A buyer's and a helper's names are their own: to hand a workbook on, their initials will do.
void names_as_initials(const book::Book& book, figures::YearFigures& figures) {
  for (figures::Sale& sale : figures.sales) sale.buyer = book::initials_of(sale.buyer);
  for (figures::YearHelper& helper : figures.helpers) helper.name = book::initials_of(helper.name);
  const auto people = book::people_named(book);
  for (figures::YearEntry& entry : figures.entries)
    if (const auto named = people.find(entry.entry); named != people.end())
      for (const std::string& name : named->second) book::put_initials(entry.what, name);
}

// What is due is called in cells as on every screen.
void call(std::vector<figures::Due>& all) {
  for (figures::Due& due : all) {
    due.what = words::called(due);
    due.kind = figures::DueKind::named;
  }
}
void call(std::vector<figures::Open>& all) {
  for (figures::Open& open : all) {
    open.what = words::called(open.due, open.what);
    open.due = figures::DueKind::named;
  }
}

void write_profit(const book::Book& book, const Wanted& wanted, Day today, const Path& out) {
  figures::ProfitFigures figures = answers::profit_figures(book, wanted.about, today);
  if (wanted.initials) {
    figures.seller = book::initials_of(figures.seller);
    figures.buyer = book::initials_of(figures.buyer);
  }
  call(figures.open);
  figures.book = answers::state_of(book);
  reports::write_profit(figures, out, wanted.is_short);
}

void write_year(const book::Book& book, const Wanted& wanted, Day today, const Path& out) {
  figures::YearFigures figures = answers::year_figures(book, wanted.year, today);
  if (wanted.initials) names_as_initials(book, figures);
  call(figures.due);
  write_of(book, std::move(figures), reports::write_year, out);
}

void write_job(const book::Book& book, const Wanted& wanted, Day today, const Path& out) {
  figures::JobFigures figures = answers::job_figures(book, wanted.about, today);
  call(figures.due);
  call(figures.waiting);
  write_of(book, std::move(figures), reports::write_job, out);
}

}  // namespace

const std::vector<std::string>& kinds() {
  static const std::vector<std::string> all = {"appraisal", "profit", "job", "year", "shopping"};
  return all;
}

std::optional<Kind> kind_of(const std::string& typed) {
  const auto found = std::find(kinds().begin(), kinds().end(), typed);
  if (found == kinds().end()) return std::nullopt;
  return static_cast<Kind>(found - kinds().begin());
}

std::string not_of_its_kind(const Wanted& wanted) {
  const bool of_a_sold_car = wanted.kind == Kind::profit;
  if (wanted.is_short && !of_a_sold_car) return "short";
  // The others name nobody: where things are bought, and what was done.
  if (wanted.initials && !of_a_sold_car && wanted.kind != Kind::year) return "initials";
  return "";
}

std::string kinds_with(const std::string& wanted) { return wanted == "short" ? "profit" : "profit or year"; }

void write(const book::Book& book, const Wanted& wanted, Day today, const Path& out) {
  if (!wanted.about.empty()) book::know_vehicle(book, "workbook", wanted.about);
  switch (wanted.kind) {
    case Kind::appraisal:
      return write_of(book, words::kept_appraisal_figures(book, wanted.about, today),
                      reports::write_appraisal, out);
    case Kind::profit:
      return write_profit(book, wanted, today, out);
    case Kind::job:
      return write_job(book, wanted, today, out);
    case Kind::year:
      return write_year(book, wanted, today, out);
    case Kind::shopping:
      return write_of(book, answers::shopping_figures(book, wanted.about, today), reports::write_shopping,
                      out);
  }
}

}  // namespace nonrunner::workbooks

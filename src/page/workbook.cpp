// Workbooks as downloads: made for the answer, beside the book's other passing files, and gone when sent.
#include <stdlib.h>
#include <unistd.h>

#include <filesystem>

#include "answers/book_state.h"
#include "answers/job.h"
#include "answers/profit.h"
#include "answers/shopping.h"
#include "answers/year.h"
#include "book/ledger/names.h"
#include "exact/ends.h"
#include "exact/nearest.h"
#include "page/rooms.h"
#include "page/year.h"
#include "reports/appraisal.h"
#include "reports/job.h"
#include "reports/profit.h"
#include "reports/shopping.h"
#include "reports/year.h"
#include "words/kept_appraisal.h"

namespace nonrunner::page::rooms {

namespace {

const std::vector<std::string> kinds = {"appraisal", "profit", "job", "year", "shopping"};

// A file of our own that nobody else can have: it exists, is empty and readable by the owner only.
std::filesystem::path empty_file() {
  std::string name = (std::filesystem::temp_directory_path() / "nonrunner-XXXXXX.xlsx").string();
  const int file = ::mkstemps(name.data(), 5);
  if (file < 0) throw MachineFailure("workbook: no file can be made for it; nothing was written");
  ::close(file);
  return name;
}

void profit_for_reading(const figures::ProfitFigures& figures, const std::filesystem::path& out) {
  reports::write_profit(figures, out);
}

template <class Figures>
void write_of(const book::Book& book, Figures figures,
              void (*write)(const Figures&, const std::filesystem::path&), const std::filesystem::path& out) {
  figures.book = answers::state_of(book);
  write(figures, out);
}

void write(const Visit& visit, const std::string& kind, const std::string& about,
           const std::filesystem::path& out) {
  const book::Book& book = visit.book;
  if (kind == "appraisal")
    write_of(book, words::kept_appraisal_figures(book, about, visit.today), reports::write_appraisal, out);
  if (kind == "profit")
    write_of(book, answers::profit_figures(book, about, visit.today), profit_for_reading, out);
  if (kind == "job") write_of(book, answers::job_figures(book, about, visit.today), reports::write_job, out);
  if (kind == "year")
    write_of(book, answers::year_figures(book, year_of(about), visit.today), reports::write_year, out);
  if (kind == "shopping")
    write_of(book, answers::shopping_figures(book, about, visit.today), reports::write_shopping, out);
}

}  // namespace

Answer workbook(Visit& visit) {
  const std::string& kind = visit.stars.front();
  const std::string about = visit.stars.size() > 1 ? visit.stars[1] : "";
  if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end() || (about.empty() && kind != "shopping"))
    throw Refusal("workbook: found \"" + kind +
                  "\", expected appraisal, profit, job, year or shopping, and of what" +
                  did_you_mean(kind, kinds));
  if (kind != "year" && !about.empty()) book::know_vehicle(visit.book, "workbook", about);
  const std::filesystem::path out = empty_file();
  try {
    write(visit, kind, about, out);
  } catch (...) {
    std::error_code none;
    std::filesystem::remove(out, none);
    throw;
  }
  Answer answer;
  answer.type = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
  answer.file = out;
  answer.file_goes = true;
  answer.save_as = (about.empty() ? "" : about + "-") + kind + ".xlsx";
  return answer;
}

}  // namespace nonrunner::page::rooms

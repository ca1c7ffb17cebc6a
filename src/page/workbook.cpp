// Workbooks as downloads: made for the answer, beside the book's other passing files, and gone when sent.
#include <fmt/format.h>
#include <stdlib.h>
#include <unistd.h>

#include <filesystem>

#include "exact/ends.h"
#include "exact/nearest.h"
#include "page/rooms.h"
#include "page/year.h"
#include "workbooks/write.h"

namespace nonrunner::page::rooms {

namespace {

// A file of our own that nobody else can have: it exists, is empty and readable by the owner only.
std::filesystem::path empty_file() {
  std::string name = (std::filesystem::temp_directory_path() / "nonrunner-XXXXXX.xlsx").string();
  const int file = ::mkstemps(name.data(), 5);
  if (file < 0) throw MachineFailure("workbook: no file can be made for it; nothing was written");
  ::close(file);
  return name;
}

// "?short=1&initials=1", as the command line has them.
workbooks::Wanted asked_for(const Form& query, workbooks::Kind kind, const std::string& typed) {
  workbooks::Wanted wanted;
  wanted.kind = kind;
  for (const auto& [name, value] : query.fields) {
    if ((name != "short" && name != "initials") || value != "1")
      throw Refusal(fmt::format("workbook: found \"{}={}\", expected short=1 or initials=1", name, value));
    (name == "short" ? wanted.is_short : wanted.initials) = true;
  }
  if (const std::string none = workbooks::not_of_its_kind(wanted); !none.empty())
    throw Refusal(fmt::format("workbook: found {} with {}, expected it with {} only", none, typed,
                              workbooks::kinds_with(none)));
  return wanted;
}

}  // namespace

Answer workbook(Visit& visit) {
  const std::string& typed = visit.stars.front();
  const std::string about = visit.stars.size() > 1 ? visit.stars[1] : "";
  const auto kind = workbooks::kind_of(typed);
  if (!kind || (about.empty() && *kind != workbooks::Kind::shopping))
    throw Refusal("workbook: found \"" + typed +
                  "\", expected appraisal, profit, job, year or shopping, and of what" +
                  did_you_mean(typed, workbooks::kinds()));
  workbooks::Wanted wanted = asked_for(visit.request.query, *kind, typed);
  if (*kind == workbooks::Kind::year)
    wanted.year = year_of(about, visit.today);
  else
    wanted.about = about;
  const std::filesystem::path out = empty_file();
  try {
    workbooks::write(visit.book, wanted, visit.today, out);
  } catch (...) {
    std::error_code none;
    std::filesystem::remove(out, none);
    throw;
  }
  Answer answer;
  answer.type = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
  answer.file = out;
  answer.file_goes = true;
  answer.save_as = (about.empty() ? "" : about + "-") + typed + ".xlsx";
  return answer;
}

}  // namespace nonrunner::page::rooms

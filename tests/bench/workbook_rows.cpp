// How long a profit workbook of 100,000 entries takes against a bare loop over libxlsxwriter that writes the
// same cells in its constant-memory mode, and how much memory it needs. Prints one line; ends with status 1
// beyond the ratio allowed.
//   workbook_rows [ENTRIES] [RATIO]
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <string>

#include "reports/profit.h"

using namespace nonrunner;
using namespace nonrunner::reports;

namespace {

struct Cost {
  double seconds = 0;
  long kilobytes = 0;
};

// In a process of its own, so that the memory is its own too.
Cost measured(const std::function<void()>& work) {
  const auto begin = std::chrono::steady_clock::now();
  const pid_t child = ::fork();
  if (child == 0) {
    work();
    ::_exit(0);
  }
  int status = 0;
  rusage usage{};
  if (child < 0 || ::wait4(child, &status, 0, &usage) != child || status != 0) {
    std::fputs("a measured process failed\n", stderr);
    std::exit(3);
  }
  const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - begin;
  (void)wall;  // the machine is shared: what the process itself used is less noisy
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_usec) / 1e6;
  };
  return {seconds(usage.ru_utime) + seconds(usage.ru_stime), usage.ru_maxrss};
}

ProfitFigures figures_of(int entries) {
  ProfitFigures f;
  f.tag = "long";
  f.made_on = Day(2026, 1, 1);
  f.bought_on = Day(2025, 1, 1);
  f.hour = Money::of_minor(2000);
  for (int i = 0; i < entries; ++i)
    f.lines.push_back({Day(2025, 1, 1).plus(i / 300), i + 1, "Millgate Parts " + std::to_string(40'000 + i),
                       "part number " + std::to_string(i), ProfitKind::part, "new", Quantity::of(2000),
                       Money::of_minor(-(100 + i % 977))});
  return f;
}

// The cells of the sheet Entries, written as directly as the library allows.
void bare(const ProfitFigures& f, const std::string& out) {
  lxw_workbook_options options{};
  options.constant_memory = LXW_TRUE;
  lxw_workbook* book = workbook_new_opt(out.c_str(), &options);
  lxw_worksheet* sheet = workbook_add_worksheet(book, "Entries");
  lxw_format* money = workbook_add_format(book);
  format_set_num_format(money, "#,##0.00");
  lxw_format* day = workbook_add_format(book);
  format_set_num_format(day, "yyyy-mm-dd");
  lxw_format* text = workbook_add_format(book);
  format_set_num_format(text, "@");
  lxw_row_t row = 4;
  double running = 0;
  for (const ProfitLine& line : f.lines) {
    const double out_amount = static_cast<double>(-line.amount.minor()) / 100,
                 quantity = line.quantity->approximately();
    running -= out_amount;
    const std::string at = std::to_string(row + 1);
    worksheet_write_number(sheet, row, 0, days_between(Day(1899, 12, 30), line.day), day);
    worksheet_write_number(sheet, row, 1, static_cast<double>(line.entry), nullptr);
    worksheet_write_string(sheet, row, 2, line.paper.c_str(), text);
    worksheet_write_string(sheet, row, 3, line.what.c_str(), text);
    worksheet_write_string(sheet, row, 4, "part", text);
    worksheet_write_string(sheet, row, 5, line.source.c_str(), text);
    worksheet_write_number(sheet, row, 6, quantity, money);
    worksheet_write_formula_num(
        sheet, row, 7, ("=IF(G" + at + "=0,0,ROUND((I" + at + "-J" + at + ")/G" + at + ",2))").c_str(), money,
        out_amount / quantity);
    worksheet_write_number(sheet, row, 8, out_amount, money);
    worksheet_write_string(sheet, row, 10, "to the sale", text);
    worksheet_write_formula_num(sheet, row, 12,
                                ("=ROUND(M" + std::to_string(row) + "+J" + at + "-I" + at + ",2)").c_str(),
                                money, running);
    ++row;
  }
  if (workbook_close(book) != LXW_NO_ERROR) ::_exit(3);
}

}  // namespace

int main(int count, char** words) {
  const int entries = count > 1 ? std::atoi(words[1]) : 100'000;
  const double allowed = count > 2 ? std::atof(words[2]) : 1.25;
  std::string folder = (std::filesystem::temp_directory_path() / "nonrunner-bench-XXXXXX").string();
  if (!::mkdtemp(folder.data())) return 3;
  const ProfitFigures figures = figures_of(entries), few = figures_of(entries / 10);
  Cost ours{1e9, 0}, bare_cost{1e9, 0};
  for (int i = 0; i < 3; ++i) {  // the best of three of each, in turn
    const Cost b = measured([&] { bare(figures, folder + "/bare.xlsx"); });
    const Cost o = measured([&] { write_profit(figures, folder + "/ours.xlsx"); });
    if (b.seconds < bare_cost.seconds) bare_cost = b;
    if (o.seconds < ours.seconds) ours = o;
  }
  const Cost short_one = measured([&] { write_profit(few, folder + "/few.xlsx"); });
  std::error_code ignored;
  std::filesystem::remove_all(folder, ignored);
  const double ratio = ours.seconds / bare_cost.seconds;
  std::printf(
      "workbook of %d entries: %.2f s against %.2f s of a bare loop, ratio %.2f (allowed %.2f); memory %ld "
      "kB against %ld kB, with a tenth of the entries %ld kB\n",
      entries, ours.seconds, bare_cost.seconds, ratio, allowed, ours.kilobytes, bare_cost.kilobytes,
      short_one.kilobytes);
  return ratio <= allowed ? 0 : 1;
}

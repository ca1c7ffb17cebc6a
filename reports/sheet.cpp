#include "reports/sheet.h"

#include <fcntl.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <new>
#include <stdexcept>

#include "exact/ends.h"
#include "reports/clean_text.h"
#include "reports/replaced_file.h"
#include "reports/whole_package.h"

namespace nonrunner::reports {

namespace {

// The library prints a line of its own where it cannot write; the exception says the same with the name of
// the file.
class QuietStandardError {
 public:
  QuietStandardError() {
    std::fflush(stderr);
    kept_ = ::dup(STDERR_FILENO);
    const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
    if (kept_ >= 0 && nowhere >= 0) ::dup2(nowhere, STDERR_FILENO);
    if (nowhere >= 0) ::close(nowhere);
  }
  ~QuietStandardError() {
    std::fflush(stderr);
    if (kept_ < 0) return;
    ::dup2(kept_, STDERR_FILENO);
    ::close(kept_);
  }
  QuietStandardError(const QuietStandardError&) = delete;
  QuietStandardError& operator=(const QuietStandardError&) = delete;

 private:
  int kept_ = -1;
};

double power_of_ten(int digits) {
  double power = 1;
  for (int i = 0; i < digits; ++i) power *= 10;
  return power;
}

bool uses_letter_paper(const Currency& currency) {
  const std::string& code = currency.code;
  return code == "USD" || code == "CAD" || code == "MXN" || code == "PHP" || code == "CLP" || code == "COP";
}

const Day first_sound_day(1900, 3, 1);

constexpr double default_column_characters = 8.43;
constexpr int default_row_points = 15, default_column_pixels = 64, pixels_per_character = 7;

}  // namespace

double number_of(Money money, const Currency& currency) {
  return static_cast<double>(money.minor()) / power_of_ten(currency.digits);
}

double number_of(Price price, const Currency& currency) {
  return static_cast<double>(price.fine()) / power_of_ten(currency.digits + 3);
}

double number_of(Day day) {
  if (day < first_sound_day)
    throw std::logic_error("a spreadsheet misdates the days before 1900-03-01: " + day.iso());
  return days_between(Day(1899, 12, 30), day);
}

struct Workbook::Inside {
  ReplacedFile file;
  std::string path;
  Currency currency;
  lxw_workbook* workbook = nullptr;
  std::map<Look, lxw_format*> formats;
  std::vector<std::unique_ptr<Sheet>> sheets;

  Inside(const std::filesystem::path& out, const Currency& money)
      : file(out), path(file.path().string()), currency(money) {}
  ~Inside() {
    if (workbook) lxw_workbook_free(workbook);
  }
  lxw_format* format(Look look) {
    lxw_format*& found = formats[look];
    if (!found) found = made(look, currency, workbook);
    return found;
  }
  void check(int error, const std::string& what) const {
    if (error == LXW_NO_ERROR) return;
    const std::string why = what + ": " + lxw_strerror(static_cast<lxw_error>(error));
    switch (error) {
      case LXW_ERROR_MEMORY_MALLOC_FAILED:
        throw std::bad_alloc();
      case LXW_ERROR_CREATING_XLSX_FILE:
      case LXW_ERROR_CREATING_TMPFILE:
      case LXW_ERROR_READING_TMPFILE:
      case LXW_ERROR_ZIP_FILE_OPERATION:
      case LXW_ERROR_ZIP_PARAMETER_ERROR:
      case LXW_ERROR_ZIP_BAD_ZIP_FILE:
      case LXW_ERROR_ZIP_INTERNAL_ERROR:
      case LXW_ERROR_ZIP_FILE_ADD:
      case LXW_ERROR_ZIP_CLOSE:
        file.fail(why);
      default:
        throw std::logic_error("workbook: " + why);
    }
  }
};

Workbook::Workbook(const std::filesystem::path& out, const Currency& currency, const Properties& properties,
                   bool long_rows)
    : inside_(std::make_unique<Inside>(out, currency)) {
  lxw_workbook_options options{};
  options.constant_memory = long_rows ? LXW_TRUE : LXW_FALSE;
  options.use_zip64 = LXW_FALSE;
  inside_->workbook = workbook_new_opt(inside_->path.c_str(), &options);
  if (!inside_->workbook) throw std::bad_alloc();
  std::string title = clean_text(properties.title, 255), subject = clean_text(properties.subject, 255);
  std::string creator = "nonrunner";
  lxw_doc_properties about{};
  about.title = title.data();
  about.subject = subject.data();
  about.author = creator.data();
  about.created = std::chrono::sys_days(std::chrono::year(properties.created.year()) /
                                        static_cast<int>(properties.created.month()) /
                                        static_cast<int>(properties.created.day_of_month()))
                      .time_since_epoch() /
                  std::chrono::seconds(1);
  if (about.created == 0) about.created = 1;  // 0 would mean now
  inside_->check(workbook_set_properties(inside_->workbook, &about), "properties");
}

Workbook::~Workbook() = default;

const Currency& Workbook::currency() const { return inside_->currency; }

Sheet& Workbook::sheet(const std::string& name) {
  lxw_worksheet* made_sheet = nullptr;
  {
    const QuietStandardError quiet;
    inside_->check(workbook_validate_sheet_name(inside_->workbook, name.c_str()), "sheet " + name);
    made_sheet = workbook_add_worksheet(inside_->workbook, name.c_str());
  }
  if (!made_sheet) inside_->file.fail("no room for the rows of sheet " + name);
  inside_->sheets.push_back(std::unique_ptr<Sheet>(new Sheet(*this, name, made_sheet)));
  return *inside_->sheets.back();
}

void Workbook::name(const std::string& defined, const Sheet& sheet, Cell cell) {
  inside_->check(workbook_define_name(inside_->workbook, defined.c_str(), ("=" + sheet.at(cell)).c_str()),
                 "name " + defined);
}

void Workbook::close() {
  for (const auto& sheet : inside_->sheets) sheet->finish(sheet == inside_->sheets.front());
  int error = LXW_NO_ERROR;
  {
    const QuietStandardError quiet;
    error = workbook_close(inside_->workbook);
  }
  inside_->workbook = nullptr;  // freed by the close, whatever it said
  inside_->check(error, "close");
  if (const std::string flaw = what_is_not_whole(inside_->path); !flaw.empty())
    inside_->file.fail("no room on the disk: " + flaw);
  inside_->file.keep();
}

std::string Sheet::at(Cell cell) const { return name_ + "!" + fixed(cell); }
std::string Sheet::at(Cell from, Cell to) const { return name_ + "!" + fixed(from) + ":" + fixed(to); }

void Sheet::check(int error, const char* what) const { workbook_.inside_->check(error, name_ + ", " + what); }

void Sheet::put(Pending cell) {
  if (cell.cell.row < next_row_)
    throw std::logic_error("sheet " + name_ + ": " + here(cell.cell) + " was given up already");
  last_row_ = std::max(last_row_, cell.cell.row);
  last_col_ = std::max(last_col_, static_cast<std::uint16_t>(cell.cell.col + cell.columns - 1));
  pending_.push_back(std::move(cell));
}

void Sheet::text(Cell cell, std::string_view text, Look look) {
  put({cell, Pending::Kind::text, look, 0, 1, std::string(text), {}});
}

void Sheet::across(Cell from, int columns, std::string_view text, Look look) {
  put({from,
       columns > 1 ? Pending::Kind::across : Pending::Kind::text,
       look,
       0,
       columns,
       std::string(text),
       {}});
}

void Sheet::money(Cell cell, Money value, Look look) {
  decimal(cell, number_of(value, workbook_.currency()), look);
}
void Sheet::price(Cell cell, Price value, Look look) {
  decimal(cell, number_of(value, workbook_.currency()), look);
}
void Sheet::decimal(Cell cell, double value, Look look) {
  if (!std::isfinite(value))
    throw std::logic_error("sheet " + name_ + ": " + here(cell) + " has no finite number");
  put({cell, Pending::Kind::number, look, value, 1, {}, {}});
}
void Sheet::whole(Cell cell, std::int64_t value, Look look) {
  decimal(cell, static_cast<double>(value), look);
}

void Sheet::day(Cell cell, Day value, Look look) {
  if (value < first_sound_day)
    text(cell, value.iso());
  else
    decimal(cell, number_of(value), look);
}

void Sheet::blank(Cell cell, Look look) { put({cell, Pending::Kind::blank, look, 0, 1, {}, {}}); }

void Sheet::formula(Cell cell, const std::string& formula, double value, Look look) {
  if (!std::isfinite(value))
    throw std::logic_error("sheet " + name_ + ": " + here(cell) + " has no finite value");
  put({cell, Pending::Kind::formula, look, value, 1, {}, "=" + formula});
}

void Sheet::formula(Cell cell, const std::string& text, Money value, Look look) {
  formula(cell, text, number_of(value, workbook_.currency()), look);
}

void Sheet::formula_text(Cell cell, const std::string& formula, const std::string& value, Look look) {
  if (look.form == Form::text) look.form = Form::words;
  put({cell, Pending::Kind::formula_text, look, 0, 1, value, "=" + formula});
}

void Sheet::headings(Cell first, const std::vector<std::string>& names, std::size_t numbers,
                     std::size_t words) {
  std::size_t most_lines = 1;
  for (std::size_t i = 0; i < names.size(); ++i) {
    text(first.right(static_cast<int>(i)), names[i],
         i >= words     ? look::heading_apart
         : i >= numbers ? look::heading_right
                        : look::heading);
    const std::size_t col = first.col + i;
    const double width = col < widths_.size() ? widths_[col] : default_column_characters;
    // Bold text is wider than the plain digits that a width counts; the last heading may run on to the right.
    const double needed = static_cast<double>(names[i].size()) * 1.15;
    const bool runs_on = i < numbers && (i + 1 == names.size() || names[i + 1].empty());
    if (!runs_on) most_lines = std::max(most_lines, static_cast<std::size_t>(std::ceil(needed / width)));
  }
  // Said outright: not every program finds the height of a wrapped row by itself.
  if (most_lines > 1)
    height(first.row, default_row_points * static_cast<double>(std::min<std::size_t>(most_lines, 3)));
}

void Sheet::widths(const std::vector<double>& characters) {
  widths_ = characters;
  for (std::size_t i = 0; i < characters.size(); ++i) {
    const auto col = static_cast<lxw_col_t>(i);
    check(worksheet_set_column(sheet_, col, col, characters[i], nullptr), "column width");
  }
}

void Sheet::height(std::uint32_t row, double points) { heights_[row] = points; }

void Sheet::frozen(std::uint32_t rows, std::uint16_t cols, std::uint32_t repeat_from) {
  frozen_rows_ = rows, frozen_cols_ = cols, repeat_from_ = repeat_from;
}

void Sheet::new_page(std::uint32_t row) {
  lxw_row_t breaks[] = {row, 0};
  check(worksheet_set_h_pagebreaks(sheet_, breaks), "page break");
}

void Sheet::chart(Cell cell, const Chart& chart, int columns, int rows) {
  placed_.push_back({cell, chart, columns, rows});
  last_row_ = std::max(last_row_, cell.row + static_cast<std::uint32_t>(rows) - 1);
  last_col_ = std::max(last_col_, static_cast<std::uint16_t>(cell.col + columns - 1));
}

void Sheet::write(const Pending& p) {
  lxw_format* format = workbook_.inside_->format(p.look);
  const lxw_row_t row = p.cell.row;
  const lxw_col_t col = p.cell.col;
  switch (p.kind) {
    case Pending::Kind::text: {
      const std::string clean = clean_text(p.text);
      // Of an empty text the library makes a blank cell, which is what it is.
      check(worksheet_write_string(sheet_, row, col, clean.c_str(), format), "text");
      break;
    }
    case Pending::Kind::across: {
      const std::string clean = clean_text(p.text);
      check(worksheet_merge_range(sheet_, row, col, row, static_cast<lxw_col_t>(col + p.columns - 1),
                                  clean.c_str(), format),
            "text");
      break;
    }
    case Pending::Kind::number:
      check(worksheet_write_number(sheet_, row, col, p.number, format), "number");
      break;
    case Pending::Kind::blank:
      check(worksheet_write_blank(sheet_, row, col, format), "blank");
      break;
    case Pending::Kind::formula:
      check(worksheet_write_formula_num(sheet_, row, col, p.formula.c_str(), format, p.number), "formula");
      break;
    case Pending::Kind::formula_text:
      check(worksheet_write_formula_str(sheet_, row, col, p.formula.c_str(), format,
                                        clean_text(p.text).c_str()),
            "formula");
      break;
  }
}

void Sheet::rows_done(std::uint32_t last) {
  // The library's constant-memory mode wants row after row, and the height of a row before its cells.
  const auto before = [](const Pending& a, const Pending& b) {
    return a.cell.row != b.cell.row ? a.cell.row < b.cell.row : a.cell.col < b.cell.col;
  };
  std::stable_sort(pending_.begin(), pending_.end(), before);
  const auto end =
      std::find_if(pending_.begin(), pending_.end(), [&](const Pending& p) { return p.cell.row > last; });
  for (auto p = pending_.begin(); p != end; ++p) {
    while (!heights_.empty() && heights_.begin()->first <= p->cell.row) {
      check(worksheet_set_row(sheet_, heights_.begin()->first, heights_.begin()->second, nullptr),
            "row height");
      heights_.erase(heights_.begin());
    }
    write(*p);
  }
  pending_.erase(pending_.begin(), end);
  next_row_ = last + 1;
}

void Sheet::finish(bool first) {
  rows_done(last_row_);
  for (const auto& [row, points] : heights_)
    check(worksheet_set_row(sheet_, row, points, nullptr), "row height");
  for (const Placed& placed : placed_) {
    int width = 0;
    for (int i = 0; i < placed.columns; ++i) {
      const auto col = static_cast<std::size_t>(placed.cell.col + i);
      width += col < widths_.size() ? static_cast<int>(widths_[col] * pixels_per_character + 5)
                                    : default_column_pixels;
    }
    // A new chart has 480 x 288 pixels.
    lxw_chart_options options{};
    options.x_scale = width / 480.0;
    options.y_scale = placed.rows * (default_row_points * 4.0 / 3.0) / 288.0;
    options.object_position = LXW_OBJECT_MOVE_DONT_SIZE;
    check(worksheet_insert_chart_opt(sheet_, placed.cell.row, placed.cell.col,
                                     made(placed.chart, workbook_.inside_->workbook), &options),
          "chart");
  }
  worksheet_set_paper(sheet_, uses_letter_paper(workbook_.currency()) ? 1 : 9);
  if (landscape_)
    worksheet_set_landscape(sheet_);
  else
    worksheet_set_portrait(sheet_);
  worksheet_set_margins(sheet_, 0.5, 0.5, 0.55, 0.7);
  worksheet_fit_to_pages(sheet_, 1, first ? 1 : 0);
  const auto last_col = printed_cols_ > 0 ? static_cast<std::uint16_t>(printed_cols_ - 1) : last_col_;
  check(worksheet_print_area(sheet_, 0, 0, last_row_, last_col), "print area");
  worksheet_gridlines(sheet_, LXW_HIDE_ALL_GRIDLINES);
  if (frozen_rows_ > 0 || frozen_cols_ > 0) worksheet_freeze_panes(sheet_, frozen_rows_, frozen_cols_);
  if (frozen_rows_ > 0) check(worksheet_repeat_rows(sheet_, repeat_from_, frozen_rows_ - 1), "repeated rows");
  check(worksheet_set_footer(sheet_, "&L&8&A&R&8&P / &N"), "footer");
  if (first) worksheet_activate(sheet_);
}

}  // namespace nonrunner::reports

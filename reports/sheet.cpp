#include "reports/sheet.h"

#include <fcntl.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <array>
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

bool uses_letter_paper(const Currency& currency, const std::string& asked) {
  if (!asked.empty()) return asked == "letter";
  const std::string& code = currency.code;
  return code == "USD" || code == "CAD" || code == "MXN" || code == "PHP" || code == "CLP" || code == "COP";
}

const Day first_sound_day(1900, 3, 1);

constexpr double default_column_characters = 8.43;
constexpr int default_row_points = 15, default_column_pixels = 64, pixels_per_character = 7;
constexpr double side_margin_inches = 0.4, top_margin_inches = 0.5, bottom_margin_inches = 0.65,
                 pixels_an_inch = 96;
// A cell shows no more lines than this; the text itself stays whole in it.
constexpr std::size_t most_lines_shown = 12;
constexpr std::size_t longest_label = 40;
const char* const inputs_name = "Inputs";
constexpr std::uint32_t inputs_first = 6;
const Cell changed_cell{3, 4};

// How wide each letter from the blank to the tilde is, in hundredths of a figure: advance widths of Carlito, the
// free font of the widths that the files ask for (its table hmtx, regular).
constexpr std::array<std::uint8_t, 95> letter_widths = {
    45,  64,  79,  98,  100, 141, 135, 44,  60,  60,  98,  98,  49,  60,  50,  76,  100, 100, 100,
    100, 100, 100, 100, 100, 100, 100, 53,  53,  98,  98,  98,  91,  176, 114, 107, 105, 121, 96,
    91,  124, 123, 50,  63,  103, 83,  169, 127, 131, 102, 133, 107, 91,  96,  127, 112, 176, 102,
    96,  92,  61,  76,  61,  98,  98,  57,  95,  104, 83,  104, 98,  60,  93,  104, 45,  47,  90,
    45,  158, 104, 104, 104, 104, 69,  77,  66,  104, 89,  141, 85,  89,  78,  62,  91,  62,  98};

// In figures of the plain font, on the safe side: letters of Europe beyond the table as the widest of them, those
// of other scripts twice a figure.
double width_of(std::string_view word) {
  double width = 0;
  for (const char c : word) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte & 0xC0) == 0x80) continue;
    if (byte >= 0xE0)
      width += 2;
    else if (byte >= 0xC0)
      width += 1.3;
    else
      width += byte >= ' ' && byte <= '~' ? letter_widths[byte - 32u] / 100.0 : 1;
  }
  return width * 1.03;
}

// The lines that a text takes in a column so wide, words kept whole where they fit.
std::size_t lines_of(std::string_view text, double characters) {
  // Most texts of a long list fit were they all of the widest letter, and need no measuring.
  constexpr double widest = 1.82;  // the W of the table, and what width_of adds
  if (static_cast<double>(text.size()) * widest <= characters && text.find('\n') == std::string_view::npos)
    return 1;
  std::size_t lines = 1;
  double used = 0;
  for (std::size_t at = 0; at < text.size() && lines < most_lines_shown;) {
    if (text[at] == '\n') {
      ++lines, ++at, used = 0;
      continue;
    }
    const std::size_t end = std::min(text.find_first_of(" \n", at + 1), text.size());
    double word = width_of(text.substr(at, end - at));
    if (used > 0 && used + word > characters) ++lines, used = 0;
    for (; word > characters && lines < most_lines_shown; word -= characters) ++lines;
    used += word;
    at = end;
  }
  return lines;
}

double points_of(Role role) {
  switch (role) {
    case Role::title:
      return 16;
    case Role::answer:
      return answer_points;
    case Role::figure:
      return 13;
    case Role::section:
      return 12;
    case Role::note:
    case Role::caution:
      return note_points;
    default:
      return body_points;
  }
}

Ask asked_by(const Look& look, double value) {
  switch (look.form) {
    case Form::percent:
      return Ask::up_to_one;
    case Form::rate:
      return Ask::share;
    case Form::day:
      return Ask::day;
    default:
      return value < 0 ? Ask::number : Ask::zero_up;
  }
}

const char* in_words(Ask ask) {
  switch (ask) {
    case Ask::number:
      return "expected a number";
    case Ask::zero_up:
      return "expected a number, 0 or more";
    case Ask::above_zero:
      return "expected a number above 0";
    case Ask::share:
      return "expected a share from 0 to below 1, such as 0.05 or 5 %";
    case Ask::up_to_one:
      return "expected a share from 0 to 1, such as 0.25 or 25 %";
    case Ask::yes_or_no:
      return "expected 1 for yes or 0 for no";
    case Ask::day:
      return "expected a day, such as 2026-03-31";
  }
  return "";
}

lxw_data_validation validation_of(Ask ask, std::string& title, std::string& message) {
  lxw_data_validation rule{};
  rule.validate = LXW_VALIDATION_TYPE_DECIMAL;
  rule.criteria = LXW_VALIDATION_CRITERIA_BETWEEN;
  constexpr double most = 1e12;
  rule.minimum_number = ask == Ask::number ? -most : 0;
  rule.maximum_number = ask == Ask::share ? 0.999999 : ask == Ask::up_to_one ? 1 : most;
  if (ask == Ask::above_zero) rule.minimum_number = 1e-6;
  if (ask == Ask::yes_or_no) rule.validate = LXW_VALIDATION_TYPE_INTEGER, rule.maximum_number = 1;
  if (ask == Ask::day) rule.minimum_number = 61, rule.maximum_number = 2'958'465;  // 1900-03-01, 9999-12-31
  title = "This cell takes no such thing";
  message = std::string(in_words(ask)) + "; type it again";
  rule.error_title = title.data();
  rule.error_message = message.data();
  return rule;
}

std::string doubled(const std::string& text) {  // an ampersand in a foot begins a code
  std::string out;
  for (const char c : text) out += c == '&' ? std::string("&&") : std::string(1, c);
  return out;
}

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
  Properties properties;
  std::map<Look, lxw_format*> formats;
  std::vector<std::unique_ptr<Sheet>> sheets;
  lxw_worksheet* label_sheet = nullptr;
  lxw_row_t next_label = 0;

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
  inside_->properties = properties;
  std::string keywords = clean_text(made_in_words(), 255);
  lxw_doc_properties about{};
  about.title = title.data();
  about.subject = subject.data();
  about.author = creator.data();
  about.keywords = keywords.data();
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

bool Workbook::to_read() const { return inside_->properties.to_read; }

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

std::string Workbook::labels(const std::vector<std::string>& names) {
  Inside& in = *inside_;
  if (!in.label_sheet) {
    in.label_sheet = workbook_add_worksheet(in.workbook, "Names");
    if (!in.label_sheet) in.file.fail("no room for the names of pictures");
    worksheet_hide(in.label_sheet);
    worksheet_protect(in.label_sheet, nullptr, nullptr);
  }
  const lxw_row_t first = in.next_label;
  for (const std::string& name : names) {
    std::string one_line = clean_text(name, longest_label);
    std::replace(one_line.begin(), one_line.end(), '\n', ' ');
    if (one_line.empty()) one_line = " ";
    in.check(
        worksheet_write_string(in.label_sheet, in.next_label++, 0, one_line.c_str(), in.format(look::text)),
        "name");
  }
  const lxw_row_t last = std::max(in.next_label, first + 1) - 1;
  return "Names!$A$" + std::to_string(first + 1) + ":$A$" + std::to_string(last + 1);
}

std::string Workbook::changed() const { return std::string(inputs_name) + "!" + fixed(changed_cell); }

std::string Workbook::made_in_words() const {
  const Properties& p = inside_->properties;
  std::string text = "Made " + p.created.iso() + " by nonrunner";
  if (!p.book.version.empty()) text += " " + p.book.version;
  if (p.book.last_entry > 0)
    text += " from the book's entries to " + std::to_string(p.book.last_entry) +
            (p.book.seal.empty() ? "" : ", seal " + p.book.seal);
  return text;
}

void Workbook::list_inputs() {
  Sheet& out = sheet(inputs_name);
  if (to_read()) out.hide();
  out.widths({16, 12, 18, 18, 12, 24});
  out.text({0, 0}, "Inputs: as this was made, and as they are now", look::title);
  out.across({1, 0}, 6,
             "Every cell that may be changed. Where one differs, the first page says so: what was sampled or "
             "planned for the figures as they were is then no longer true.",
             look::note);
  out.text({changed_cell.row, 0}, "Differ now", look::total);
  out.headings({inputs_first - 1, 0}, {"Sheet", "Cells", "As it was made", "Now", "Differs", ""}, 2, 5);
  out.frozen(inputs_first, 0, inputs_first - 1);
  std::uint32_t at = inputs_first;
  const auto put = [&](const Sheet& of, const std::string& where, const std::string& now,
                       const std::optional<double>& made, Look how, const std::string& differs) {
    how.role = Role::plain;
    out.text({at, 0}, of.name());
    out.text({at, 1}, where);
    if (made) {
      out.decimal({at, 2}, *made, how);
      out.formula({at, 3}, now, *made, how);
    } else {
      out.text({at, 2}, "empty", look::note);
      out.formula_text({at, 3}, "IF(" + now + "=\"\",\"\"," + now + ")", "", how);
    }
    out.formula({at, 4}, differs, 0, look::whole);
    ++at;
  };
  for (const auto& each : inside_->sheets) {
    // Of rows that were given up, a column is held against its sum: still true of any one change.
    for (const auto& [col, given_up] : each->given_up_) {
      const Cell first{given_up.first, col}, last{given_up.last, col};
      std::string now = "SUM(" + each->at(first, last) + ")";
      for (const Cell& cell : given_up.follow) now += "-" + each->at(cell);
      put(*each, here(first, last), now, given_up.sum, look::decimal,
          "IF(ABS(" + here(Cell{at, 3}) + "-" + here(Cell{at, 2}) + ")<0.0005,0,1)");
    }
    for (const Sheet::Input& input : each->inputs_) {
      if (!input.counted) continue;
      const std::string now = each->at(input.cell);
      put(*each, here(input.cell), now, input.made, input.look,
          input.made ? "IF(" + now + "=" + here(Cell{at, 2}) + ",0,1)" : "IF(" + now + "=\"\",0,1)");
    }
  }
  if (at == inputs_first) out.text({at++, 0}, "none: nothing here may be changed");
  out.formula(changed_cell, "SUM(" + here({inputs_first, 4}, {at - 1, 4}) + ")", 0,
              {Form::whole, Role::total});
}

void Workbook::close() {
  list_inputs();
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

void Sheet::check(int error, const char* what) const {
  if (error != LXW_NO_ERROR)
    workbook_.inside_->check(error, name_ + ", " + what);  // once a cell: no text before it fails
}

void Sheet::put(Pending cell) {
  if (workbook_.to_read() && cell.look.role == Role::input) cell.look.role = Role::plain;
  if (cell.cell.row < next_row_)
    throw std::logic_error("sheet " + name_ + ": " + here(cell.cell) + " was given up already");
  last_row_ = std::max(last_row_, cell.cell.row);
  reaches(cell.cell.col, cell.columns, cell.cell.row);
  last_col_ = std::max(last_col_, static_cast<std::uint16_t>(cell.cell.col + cell.columns - 1));
  if (cell.look.role == Role::input || cell.look.role == Role::box) note_input(cell);
  pending_.push_back(std::move(cell));
}

void Sheet::reaches(std::uint16_t first, int columns, std::uint32_t row) {
  const std::size_t end = static_cast<std::size_t>(first) + static_cast<std::size_t>(columns);
  if (last_rows_.size() < end) last_rows_.resize(end, 0);
  for (std::size_t col = first; col < end; ++col) last_rows_[col] = std::max(last_rows_[col], row);
}

void Sheet::note_input(const Pending& cell) {
  const bool number = cell.kind == Pending::Kind::number;
  if (!number && cell.kind != Pending::Kind::blank) return;
  if (cell.look.form == Form::text) return;  // a legend, or a box to tick
  inputs_.push_back({cell.cell, asked_by(cell.look, cell.number), cell.look.role == Role::input,
                     number ? std::optional(cell.number) : std::nullopt, cell.look});
}

void Sheet::ask(Cell cell, Ask what) {
  for (Input& input : inputs_)
    if (input.cell == cell) input.ask = what;
}

int Sheet::pixels(std::uint16_t first, std::uint16_t last) const {
  int sum = 0;
  for (std::size_t col = first; col <= last; ++col) {
    if (is_hidden(col)) continue;
    sum += col < widths_.size() ? static_cast<int>(widths_[col] * pixels_per_character + 5)
                                : default_column_pixels;
  }
  return sum;
}

std::size_t Sheet::lines_needed(std::string_view text, std::uint16_t first, int columns, Look look) const {
  const int wide = pixels(first, static_cast<std::uint16_t>(first + columns - 1)) - 5;
  const double bold = look.role == Role::total || look.role == Role::answer ? 1.1 : 1;
  return lines_of(text, wide / (pixels_per_character * bold * points_of(look.role) / body_points));
}

void Sheet::text(Cell cell, std::string_view text, Look look) {
  // Not every program finds the height of a row by its letters.
  if (look.role == Role::title) height(cell.row, 24);
  if (look.role == Role::section) height(cell.row, 18);
  put({cell, Pending::Kind::text, look, 0, 1, std::string(text), {}});
}

void Sheet::wrapped(Cell cell, std::string_view words, Look look) {
  look.wrapped = true;
  grow(cell, words, look);
  text(cell, words, look);
}

// The row becomes high enough for the words in their own column.
void Sheet::grow(Cell cell, std::string_view words, Look look) {
  const double points = points_of(look.role) * 15 / body_points;
  // A little more than the lines, which not every program draws equally close.
  const auto lines = static_cast<double>(lines_needed(words, cell.col, 1, look));
  const double needed = lines > 1 ? std::ceil(points * lines) + 2 : points;
  const auto found = heights_.find(cell.row);
  const double stands = found == heights_.end() ? default_row_points : found->second;
  if (needed > stands) height(cell.row, needed);
  if (lines > 1) tall_rows_.insert(cell.row);
}

void Sheet::across(Cell from, int columns, std::string_view text, Look look) {
  look.wrapped = true;
  const double line = points_of(look.role) * 15 / body_points;
  height(from.row, std::ceil(line * static_cast<double>(lines_needed(text, from.col, columns, look)) + 1));
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
  if (look.wrapped) grow(cell, value, look);
  if (look.form == Form::text) look.form = Form::words;
  put({cell, Pending::Kind::formula_text, look, 0, 1, value, "=" + formula});
}

void Sheet::headings(Cell first, const std::vector<std::string>& names, std::size_t numbers,
                     std::size_t words) {
  std::size_t most_lines = 1;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const Cell at = first.right(static_cast<int>(i));
    text(at, names[i], i >= words ? look::heading_apart : i >= numbers ? look::heading_right : look::heading);
    // The last heading may run on to the right.
    const bool runs_on = i < numbers && (i + 1 == names.size() || names[i + 1].empty());
    if (!runs_on) most_lines = std::max(most_lines, lines_of_heading(names[i], at.col));
  }
  heading_height(first.row, most_lines);
}

// Said outright: not every program finds the height of a row of several lines by itself.
void Sheet::heading_height(std::uint32_t row, std::size_t lines) {
  constexpr std::size_t most_lines = 4;
  constexpr double air = 4;
  height(row, default_row_points * static_cast<double>(std::min(lines, most_lines)) + air);
}

void Sheet::widths(const std::vector<double>& characters) {
  widths_ = characters;
  for (std::size_t i = 0; i < characters.size(); ++i) {
    const auto col = static_cast<lxw_col_t>(i);
    check(worksheet_set_column(sheet_, col, col, characters[i], nullptr), "column width");
  }
}

const Currency& Sheet::currency() const { return workbook_.currency(); }

std::size_t Sheet::lines_of_heading(std::string_view words, std::uint16_t column) const {
  return lines_needed(words, column, 1, look::total);
}

void Sheet::hidden_columns(std::uint16_t first, std::uint16_t last) {
  hidden_columns_.resize(std::max<std::size_t>(hidden_columns_.size(), last + 1u));
  std::fill(hidden_columns_.begin() + first, hidden_columns_.begin() + last + 1, true);
  lxw_row_col_options options{};
  options.hidden = LXW_TRUE;
  // One by one: over the widths of single columns a range would be told a second time, which is no sound file.
  for (std::uint16_t col = first; col <= last; ++col)
    check(worksheet_set_column_opt(sheet_, col, col,
                                   col < widths_.size() ? widths_[col] : default_column_characters, nullptr,
                                   &options),
          "hidden columns");
}

void Sheet::height(std::uint32_t row, double points) { heights_[row] = points; }

void Sheet::frozen(std::uint32_t rows, std::uint16_t cols, std::uint32_t repeat_from) {
  frozen_rows_ = rows, frozen_cols_ = cols, repeat_from_ = repeat_from;
}

void Sheet::close_gaps() {
  constexpr double no_room = 1;
  std::map<std::uint32_t, bool> headings;  // of the rows that hold something: whether that is a heading
  for (const Pending& each : pending_)
    headings[each.cell.row] |= each.look.role == Role::heading || each.look.role == Role::section;
  std::uint32_t next = 0;
  for (const auto& [row, heading] : headings) {
    for (std::uint32_t empty = next; empty + (heading ? 1 : 0) < row; ++empty) height(empty, no_room);
    next = row + 1;
  }
}

void Sheet::together(std::uint32_t first, std::uint32_t last) { blocks_.emplace_back(first, last); }

void Sheet::chart(Cell cell, const Chart& chart, int columns, int rows) {
  placed_.push_back({cell, chart, columns, rows});
  // With the row above: a picture that touches the end of a page counts with the next one as well.
  together(cell.row > 0 ? cell.row - 1 : 0, cell.row + static_cast<std::uint32_t>(rows) - 1);
  last_row_ = std::max(last_row_, cell.row + static_cast<std::uint32_t>(rows) - 1);
  reaches(cell.col, columns, cell.row + static_cast<std::uint32_t>(rows) - 1);
  last_col_ = std::max(last_col_, static_cast<std::uint16_t>(cell.col + columns - 1));
}

void Sheet::write(const Pending& p, bool in_tall_row) {
  Look how = p.look;
  how.on_top = in_tall_row;
  lxw_format* format = workbook_.inside_->format(how);
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
  for (const Input& input : inputs_) {
    GivenUp& column =
        given_up_.try_emplace(input.cell.col, GivenUp{input.cell.row, last, 0, {}, input.ask}).first->second;
    if (input.ask == Ask::number) column.ask = Ask::number;
  }
  inputs_.clear();
  for (auto& [col, column] : given_up_) column.last = last;
  for (const Pending& p : pending_) {
    if (p.kind != Pending::Kind::number && p.kind != Pending::Kind::formula) continue;
    const auto found = given_up_.find(p.cell.col);
    if (found == given_up_.end() || p.cell.row < found->second.first) continue;
    if (p.kind == Pending::Kind::formula)
      found->second.follow.push_back(p.cell);
    else
      found->second.sum += p.number;
  }
  write_rows(last);
}

void Sheet::write_rows(std::uint32_t last) {
  // The library's constant-memory mode wants row after row, and the height of a row before its cells.
  const auto before = [](const Pending& a, const Pending& b) {
    return a.cell.row != b.cell.row ? a.cell.row < b.cell.row : a.cell.col < b.cell.col;
  };
  if (!std::is_sorted(pending_.begin(), pending_.end(), before))  // a long list writes its cells in order
    std::stable_sort(pending_.begin(), pending_.end(), before);
  const auto end =
      std::find_if(pending_.begin(), pending_.end(), [&](const Pending& p) { return p.cell.row > last; });
  bool in_tall_row = false;
  for (auto p = pending_.begin(); p != end; ++p) {
    if (p == pending_.begin() || p->cell.row != (p - 1)->cell.row)
      in_tall_row = tall_rows_.erase(p->cell.row) > 0;
    while (!heights_.empty() && heights_.begin()->first <= p->cell.row) {
      check(worksheet_set_row(sheet_, heights_.begin()->first, heights_.begin()->second, nullptr),
            "row height");
      heights_.erase(heights_.begin());
    }
    write(*p, in_tall_row);
  }
  pending_.erase(pending_.begin(), end);
  next_row_ = last + 1;
}

void Sheet::draw() {
  if (hidden_) return;  // nobody would see it, on the screen or on paper
  for (const Placed& placed : placed_) {
    if (placed.chart.says.empty())
      throw std::logic_error("sheet " + name_ + ": the picture at " + here(placed.cell) + " says nothing");
    const int width =
        pixels(placed.cell.col, static_cast<std::uint16_t>(placed.cell.col + placed.columns - 1));
    // A new chart has 480 x 288 pixels.
    std::string says = clean_text(placed.chart.says, 255);
    lxw_chart_options options{};
    options.x_scale = width / 480.0;
    options.y_scale = placed.rows * (default_row_points * 4.0 / 3.0) / 288.0;
    options.object_position = LXW_OBJECT_MOVE_DONT_SIZE;
    options.description = says.data();
    check(worksheet_insert_chart_opt(sheet_, placed.cell.row, placed.cell.col,
                                     made(placed.chart, workbook_.inside_->workbook), &options),
          "chart");
  }
}

// A rule for each run of inputs that take the same; what stands between them in their column is locked.
void Sheet::guard() {
  const auto rule = [&](Cell from, Cell to, Ask ask) {
    std::string title, message;
    lxw_data_validation validation = validation_of(ask, title, message);
    check(worksheet_data_validation_range(sheet_, from.row, from.col, to.row, to.col, &validation),
          "validation");
  };
  for (const auto& [col, column] : given_up_) rule({column.first, col}, {column.last, col}, column.ask);
  std::stable_sort(inputs_.begin(), inputs_.end(), [](const Input& a, const Input& b) {
    return a.cell.col != b.cell.col ? a.cell.col < b.cell.col : a.cell.row < b.cell.row;
  });
  for (std::size_t i = 0; i < inputs_.size();) {
    std::size_t last = i;
    while (last + 1 < inputs_.size() && inputs_[last + 1].cell.col == inputs_[i].cell.col &&
           inputs_[last + 1].ask == inputs_[i].ask)
      ++last;
    rule(inputs_[i].cell, inputs_[last].cell, inputs_[i].ask);
    i = last + 1;
  }
  lxw_protection may{};
  may.format_columns = may.format_rows = may.sort = may.autofilter = LXW_TRUE;
  worksheet_protect(sheet_, nullptr, &may);
}

// One page wide, so that a sheet which is wider is printed smaller: A4 is 8.27 x 11.69 inches (ISO 216), Letter
// 8.5 x 11.
Sheet::Paper Sheet::paper() const {
  const Workbook::Inside& in = *workbook_.inside_;
  Paper paper;
  paper.letter = uses_letter_paper(in.currency, in.properties.book.paper_size);
  const double narrow = paper.letter ? 8.5 : 8.27, wide = paper.letter ? 11.0 : 11.69;
  const double across = (landscape_ ? wide : narrow) - 2 * side_margin_inches,
               down = (landscape_ ? narrow : wide) - top_margin_inches - bottom_margin_inches;
  constexpr double points_an_inch = 72;
  paper.last_col = printed_cols_ > 0 ? static_cast<std::uint16_t>(printed_cols_ - 1) : last_col_;
  paper.scale = across * pixels_an_inch / pixels(0, paper.last_col);
  paper.points_down = down * points_an_inch / std::min(1.0, paper.scale);
  return paper;
}

double Sheet::height_of(std::uint32_t row) const {
  const auto found = heights_.find(row);
  return found == heights_.end() ? default_row_points : found->second;
}

// Goes down the rows as a printer does, and ends a page before each block that would be parted by its end and that
// a page can hold.
void Sheet::break_pages() {
  if (one_page_ || hidden_ || next_row_ > 0) return;
  constexpr double on_the_safe_side = 0.97;
  constexpr std::size_t most_breaks = 1'000;  // the format has room for 1,023 (ECMA-376, from memory)
  const double page = paper().points_down * on_the_safe_side;
  double repeated = 0, used = 0;
  for (std::uint32_t row = repeat_from_; row < frozen_rows_; ++row) repeated += height_of(row);
  std::stable_sort(blocks_.begin(), blocks_.end());
  auto block = blocks_.begin();
  for (std::uint32_t row = 0; row <= last_row_; ++row) {
    const double own = height_of(row);
    double needed = own;
    for (; block != blocks_.end() && block->first <= row; ++block) {
      double high = 0;
      for (std::uint32_t each = row; each <= block->second; ++each) high += height_of(each);
      if (high + repeated <= page) needed = std::max(needed, high);
    }
    if (used + needed > page) {
      // Said outright while blocks are to come: a page that ended a row later would part the next one.
      if ((needed > own || block != blocks_.end()) && breaks_.size() < most_breaks) breaks_.push_back(row);
      used = row >= frozen_rows_ ? repeated : 0;
    }
    used += own;
  }
}

void Sheet::lay_out(bool first) {
  const Workbook::Inside& in = *workbook_.inside_;
  const Paper on = paper();
  worksheet_set_paper(sheet_, on.letter ? 1 : 9);
  if (landscape_)
    worksheet_set_landscape(sheet_);
  else
    worksheet_set_portrait(sheet_);
  worksheet_set_margins(sheet_, side_margin_inches, side_margin_inches, top_margin_inches,
                        bottom_margin_inches);
  worksheet_fit_to_pages(sheet_, 1, first || one_page_ ? 1 : 0);
  const std::uint16_t last_col = on.last_col;
  if (on.scale * note_points < least_points)
    throw std::logic_error("sheet " + name_ + ": it is " + std::to_string(pixels(0, last_col)) +
                           " pixels wide, so that its notes would be printed below 8 points");
  // What only feeds a picture may reach further down than what is printed.
  std::uint32_t last_row = 0;
  for (std::size_t col = 0; col < last_rows_.size() && col <= last_col; ++col)
    if (!is_hidden(col)) last_row = std::max(last_row, last_rows_[col]);
  // A hidden sheet with an area to print is printed by one program.
  if (!hidden_) check(worksheet_print_area(sheet_, 0, 0, last_row, last_col), "print area");
  worksheet_gridlines(sheet_, LXW_HIDE_ALL_GRIDLINES);
  // A heading below a picture would leave no room to scroll in.
  constexpr std::uint32_t most_frozen = 8;
  if (frozen_rows_ > 0 && frozen_rows_ <= most_frozen)
    worksheet_freeze_panes(sheet_, frozen_rows_, frozen_cols_);
  if (frozen_rows_ > 0 && !hidden_)
    check(worksheet_repeat_rows(sheet_, repeat_from_, frozen_rows_ - 1), "repeated rows");
  if (!breaks_.empty()) {
    std::vector<lxw_row_t> breaks(breaks_.begin(), breaks_.end());
    breaks.push_back(0);
    check(worksheet_set_h_pagebreaks(sheet_, breaks.data()), "page breaks");
  }
  const Properties& p = in.properties;
  std::string foot = p.of + (p.of.empty() || p.kind.empty() ? "" : ", ") + p.kind;
  foot += (foot.empty() ? "" : ", ") + p.created.iso();
  if (p.book.last_entry > 0) foot += ", entries to " + std::to_string(p.book.last_entry);
  foot += ", " + in.currency.code;
  check(worksheet_set_footer(sheet_, ("&L&11 " + doubled(foot) + "&R&11 &A  &P / &N").c_str()), "footer");
}

void Sheet::finish(bool first) {
  if (!first) break_pages();
  write_rows(last_row_);
  for (const auto& [row, points] : heights_)
    check(worksheet_set_row(sheet_, row, points, nullptr), "row height");
  draw();
  guard();
  lay_out(first);
  if (first) worksheet_activate(sheet_);
  if (hidden_) worksheet_hide(sheet_);
}

}  // namespace nonrunner::reports

// Workbooks of spreadsheet cells over libxlsxwriter: the one place that knows the library and the shared
// look.
//
// - Cells may be written in any order; they are kept until close(), except rows given up by rows_done(), so
//   that a sheet of 100,000 rows needs no more memory than one of ten.
// - A formula is written with the value that the program computed: what a person sees before any
//   recalculation, and what a recalculation must give again.
// - Text is always text, never a formula, cleaned by clean_text().
// - Same calls, same `created`: same bytes.
// - Every sheet is protected without a password, its inputs unlocked: a slip of the finger changes nothing,
// and whoever wants
//   more takes the protection off. An input takes only what its look says (`Ask`), with a message.
// - The last sheet, Inputs, lists every input with the number that it had when the workbook was made, and
// counts those that
//   differ now: `changed()` is that count, for a head that must not go on saying what was true then.
// - Printed on A4 or Letter, one page wide. A sheet so wide that its notes would come out below 8 points is
//   std::logic_error. Foot of every page: what it is of, its kind, the day, the last entry, the currency.
// - The file appears under its name only when close() returns, whole and on the disk. Every function throws
//   MachineFailure naming the file where the machine fails, and std::logic_error where a report asks for the
//   impossible.
#pragma once
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "exact/day.h"
#include "exact/money.h"
#include "exact/price.h"
#include "exact/thousandths.h"
#include "figures/book_state.h"
#include "reports/cell.h"
#include "reports/chart.h"
#include "reports/look.h"

struct lxw_worksheet;

namespace nonrunner::reports {

class Workbook;

// The number that a spreadsheet holds for it: the nearest binary fraction, so that 15 digits come back as
// written.
double number_of(Money, const Currency&);
double number_of(Price, const Currency&);
double number_of(
    Day);  // days of the 1900 date system; throws std::logic_error before 1900-03-01, which it misdates

class Sheet {
 public:
  const std::string& name() const { return name_; }
  std::string at(Cell) const;                // "Entries!$B$7": for other sheets
  std::string at(Cell from, Cell to) const;  // "Entries!$B$7:$B$12"

  void text(Cell, std::string_view, Look = look::text);
  // Over several cells of one row, for sentences: the row is made as high as the lines that it takes. After
  // widths().
  void across(Cell from, int columns, std::string_view, Look);
  // A text that may take several lines in its own column; the row grows with the highest of them.
  void wrapped(Cell, std::string_view, Look = look::wrapped);
  void money(Cell, Money, Look = look::money);
  void price(Cell, Price, Look = look::price);
  void decimal(Cell, double, Look = look::decimal);
  template <class What>
  void decimal(Cell cell, Thousandths<What> value, Look look = look::decimal) {
    decimal(cell, value.approximately(), look);
  }
  void whole(Cell, std::int64_t, Look = look::whole);
  void day(Cell, Day, Look = look::day);  // a day before 1900-03-01 is written as text
  void blank(Cell, Look);
  // `formula` without the equals sign, in the form of the file format: English names, commas, a point.
  void formula(Cell, const std::string& formula, double value, Look);
  void formula(Cell, const std::string& formula, Money value, Look = look::money);
  // A look that takes several lines makes the row as high as `value` needs.
  void formula_text(Cell, const std::string& formula, const std::string& value, Look = look::text);
  // Those of the columns of numbers, from `numbers` up to `words`, stand right. After widths(): the height of
  // the row follows from them.
  void headings(Cell first, const std::vector<std::string>& names, std::size_t numbers,
                std::size_t words = 1000);

  // What an input takes, where its look says less than is to be said: "above 0", "1 or 0".
  void ask(Cell, Ask);

  std::size_t lines_of_heading(std::string_view, std::uint16_t column) const;
  const Currency& currency() const;

  void widths(const std::vector<double>& characters);
  // They only feed pictures and sums. After widths(). The first of them holds text where the last column that is
  // printed may be empty: one program prints a hidden number as ### over the edge of an empty cell before it.
  void hidden_columns(std::uint16_t first, std::uint16_t last);
  void height(std::uint32_t row, double points);
  // Of rows at fixed places those that were left empty take no room; one stays above a heading. After the last cell.
  void close_gaps();
  void heading_height(std::uint32_t row, std::size_t lines);
  void frozen(std::uint32_t rows, std::uint16_t cols = 0,
              std::uint32_t repeat_from = 0);  // on the screen and on each printed page
  // On paper these rows stay on one page where one can hold them, as a picture does.
  void together(std::uint32_t first, std::uint32_t last);
  void landscape() { landscape_ = true; }
  void printed_columns(std::uint16_t columns) {
    printed_cols_ = columns;
  }                                                       // of those beyond, nothing is printed
  void hide() { hidden_ = true; }                         // it only feeds the others
  void one_page() { one_page_ = true; }                   // on paper, however long
  void chart(Cell, const Chart&, int columns, int rows);  // covers so many cells
  // No cell above or in this row will be written any more.
  void rows_done(std::uint32_t last);

 private:
  friend class Workbook;
  struct Pending {
    Cell cell;
    enum class Kind { text, number, blank, formula, formula_text, across } kind;
    Look look;
    double number = 0;
    int columns = 1;
    std::string text, formula;
  };
  struct Placed {
    Cell cell;
    Chart chart;
    int columns, rows;
  };
  struct Input {
    Cell cell;
    Ask ask = Ask::number;
    bool counted = true;  // false: a box to fill in, which contradicts nothing
    std::optional<double> made;
    Look look;
  };
  Sheet(Workbook& workbook, std::string name, lxw_worksheet* sheet)
      : workbook_(workbook), name_(std::move(name)), sheet_(sheet) {}
  void put(Pending);
  void note_input(const Pending&);
  void grow(Cell, std::string_view words, Look);
  void reaches(std::uint16_t first, int columns, std::uint32_t row);
  void write(const Pending&, bool in_tall_row);
  void write_rows(std::uint32_t last);
  void draw();
  void guard();
  struct Paper {
    bool letter = false;
    std::uint16_t last_col = 0;         // printed
    double scale = 1, points_down = 0;  // points_down: what a page holds, in the heights of rows
  };
  Paper paper() const;
  double height_of(std::uint32_t row) const;
  void break_pages();
  void lay_out(bool first);
  void finish(bool first);
  std::size_t lines_needed(std::string_view, std::uint16_t first, int columns, Look) const;
  int pixels(std::uint16_t first, std::uint16_t last) const;
  bool is_hidden(std::size_t col) const { return col < hidden_columns_.size() && hidden_columns_[col]; }
  void check(int error, const char* what) const;

  Workbook& workbook_;
  std::string name_;
  lxw_worksheet* sheet_;
  std::vector<Pending> pending_;
  std::vector<Placed> placed_;
  std::vector<Input> inputs_;
  // Of a column of rows that were given up: where its inputs begin and end, and the sum of what stands between
  // and does not follow.
  struct GivenUp {
    std::uint32_t first = 0, last = 0;
    double sum = 0;
    std::vector<Cell> follow = {};  // formulas between them, which differ where some other input does
    Ask ask = Ask::zero_up;
  };
  std::map<std::uint16_t, GivenUp> given_up_;
  std::vector<std::uint32_t> breaks_, last_rows_;                // last_rows_: of each column
  std::vector<std::pair<std::uint32_t, std::uint32_t>> blocks_;  // rows that stay together
  std::vector<bool> hidden_columns_;
  bool one_page_ = false, hidden_ = false;
  std::vector<double> widths_;
  std::map<std::uint32_t, double> heights_;
  std::set<std::uint32_t> tall_rows_;  // some cell of theirs takes several lines
  std::uint32_t next_row_ = 0, last_row_ = 0, frozen_rows_ = 0, repeat_from_ = 0;
  std::uint16_t last_col_ = 0, frozen_cols_ = 0, printed_cols_ = 0;
  bool landscape_ = false;
};

struct Properties {
  std::string title, subject;
  Day created;  // the day that the file itself names; nothing else in it depends on when it was written
  std::string of = {}, kind = {};  // for the foot: a car's tag or a year; profit, job
  figures::BookState book = {};
  bool to_read = false;  // for somebody else: nothing is an input, nothing is marked as one
};

class Workbook {
 public:
  // `long_rows`: a sheet will be given up row by row (rows_done). Charts then hold no copy of their figures.
  Workbook(const std::filesystem::path& out, const Currency&, const Properties&, bool long_rows = false);
  ~Workbook();  // without close(): nothing is left behind
  Workbook(const Workbook&) = delete;
  Workbook& operator=(const Workbook&) = delete;

  const Currency& currency() const;
  bool to_read() const;
  Sheet& sheet(const std::string& name);  // added at the end; the first one is the printed page that answers
  void name(const std::string& defined, const Sheet&, Cell);  // a name for others to refer to
  // Names for a picture: cut, so that one of a thousand letters does not push the bars out of it, on a sheet
  // that is not shown. The range of cells that holds them.
  std::string labels(const std::vector<std::string>&);
  // How many inputs differ from what they were when this was made, as a formula writes it.
  std::string changed() const;
  // "Made 2026-11-25 by nonrunner 0.1.0 from the book's entries to 95, seal de77596b"; for the first page.
  std::string made_in_words() const;
  void close();

 private:
  friend class Sheet;
  void list_inputs();
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace nonrunner::reports

// A table of a sheet: a column is one row of a list (its heading, width and look, whether it is summed), its
// rows follow each other, and the row of sums below is a formula with the sum that the program made.
//
// Sums of money, of hours, distances and quantities are exact; sums of other numbers are those of doubles.
// The heading is printed again on every page of the table.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "reports/sheet.h"

namespace nonrunner::reports {

struct Column {
  std::string heading;
  double characters = 12;
  Look look;
  bool summed = false;
};
inline constexpr bool summed = true;

class Table {
 public:
  // Sets the widths of the sheet and writes the headings.
  Table(Sheet&, std::uint32_t heading_row, std::vector<Column>);

  // Begins the next row, `points` high or as high as its texts need.
  void row(double points = 0);
  std::uint32_t at() const { return at_; }
  Cell cell(std::uint16_t column) const { return {at_, column}; }
  std::string in(std::uint16_t column) const { return here(Cell{at_, column}); }  // "D7", of this row
  // "D5:D9": the rows so far, the first of them at least.
  std::string range(std::uint16_t column) const { return here(first(column), last(column)); }
  Cell first(std::uint16_t column) const { return {heading_ + 1, column}; }
  Cell last(std::uint16_t column) const;
  bool empty() const { return rows_ == 0; }
  std::size_t size() const { return rows_; }

  // In the look of the column, or in another one.
  void text(std::uint16_t column, std::string_view);
  void text(std::uint16_t column, std::string_view, Look);
  void day(std::uint16_t column, Day);
  void money(std::uint16_t column, Money);
  void money(std::uint16_t column, Money, Look);
  void money(std::uint16_t column, const std::string& formula, Money);
  void price(std::uint16_t column, Price);
  void number(std::uint16_t column, double);
  void number(std::uint16_t column, double, Look);
  void number(std::uint16_t column, const std::string& formula, double);
  template <class What>
  void count(std::uint16_t column, Thousandths<What> value) {
    sum_at(column).thousandths += value.thousandths();
    sheet_.decimal(cell(column), value.approximately(), column_at(column).look);
  }
  void words(std::uint16_t column, const std::string& formula, const std::string& value);

  // The row of sums under `label`, or `when_empty` in a row of its own before it. The cell at its beginning.
  Cell close(const std::string& label, const std::string& when_empty);
  // Without sums.
  void close(const std::string& when_empty);
  Money sum(std::uint16_t column) const { return sums_[column].money; }

 private:
  struct Sum {
    Money money;
    std::int64_t thousandths = 0;
    double number = 0;
  };
  const Column& column_at(std::uint16_t) const;  // throws where the list has none such
  Sum& sum_at(std::uint16_t column) { return column_at(column), sums_[column]; }
  Sheet& sheet_;
  std::vector<Column> columns_;
  std::vector<Sum> sums_;
  std::uint32_t heading_, at_;
  std::size_t rows_ = 0;
};

}  // namespace nonrunner::reports

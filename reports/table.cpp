#include "reports/table.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "reports/formula.h"

namespace nonrunner::reports {

namespace {

bool is_number(const Look& look) {
  return look.form != Form::text && look.form != Form::words && look.form != Form::day;
}

}  // namespace

Table::Table(Sheet& sheet, std::uint32_t heading_row, std::vector<Column> columns)
    : sheet_(sheet),
      columns_(std::move(columns)),
      sums_(columns_.size()),
      heading_(heading_row),
      at_(heading_row) {
  std::vector<double> widths;
  std::vector<std::string> names;
  for (const Column& each : columns_) widths.push_back(each.characters), names.push_back(each.heading);
  sheet_.widths(widths);
  // Numbers stand right, and so do their headings; words that follow a number stand a little apart.
  std::size_t most_lines = 1;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    const bool apart = columns_[i].look.side == Look::Side::apart;
    const Look how = columns_[i].look.side == Look::Side::centre ? look::heading_centre
                     : is_number(columns_[i].look)               ? look::heading_right
                     : apart                                     ? look::heading_apart
                                                                 : look::heading;
    const Cell at{heading_row, static_cast<std::uint16_t>(i)};
    sheet_.text(at, names[i], how);
    most_lines = std::max(most_lines, sheet_.lines_of_heading(names[i], at.col));
  }
  sheet_.heading_height(heading_row, most_lines);
  sheet_.frozen(heading_row + 1, 0, heading_row);
}

void Table::row(double points) {
  ++rows_;
  at_ = heading_ + static_cast<std::uint32_t>(rows_);
  if (points > 0) sheet_.height(at_, points);
}

Cell Table::last(std::uint16_t column) const {
  return {heading_ + static_cast<std::uint32_t>(std::max<std::size_t>(rows_, 1)), column};
}

const Column& Table::column_at(std::uint16_t column) const {
  if (column < columns_.size()) return columns_[column];
  throw std::logic_error(fmt::format("sheet {}: its list has {} columns, and number {} is written",
                                     sheet_.name(), columns_.size(), column + 1));
}

void Table::text(std::uint16_t column, std::string_view words) {
  text(column, words, column_at(column).look);
}
void Table::text(std::uint16_t column, std::string_view words, Look look) {
  if (is_number(look)) look = look::text;
  if (look.wrapped)
    sheet_.wrapped(cell(column), words, look);
  else
    sheet_.text(cell(column), words, look);
}
void Table::day(std::uint16_t column, Day value) { sheet_.day(cell(column), value, column_at(column).look); }
void Table::money(std::uint16_t column, Money value) { money(column, value, column_at(column).look); }
void Table::money(std::uint16_t column, Money value, Look look) {
  sum_at(column).money += value;
  sheet_.money(cell(column), value, look);
}
void Table::money(std::uint16_t column, const std::string& formula, Money value) {
  sum_at(column).money += value;
  sheet_.formula(cell(column), formula, value, column_at(column).look);
}
void Table::price(std::uint16_t column, Price value) {
  sheet_.price(cell(column), value, column_at(column).look);
}
void Table::number(std::uint16_t column, double value) { number(column, value, column_at(column).look); }
void Table::number(std::uint16_t column, double value, Look look) {
  sum_at(column).number += value;
  sheet_.decimal(cell(column), value, look);
}
void Table::number(std::uint16_t column, const std::string& formula, double value) {
  sum_at(column).number += value;
  sheet_.formula(cell(column), formula, value, column_at(column).look);
}
void Table::words(std::uint16_t column, const std::string& formula, const std::string& value) {
  sheet_.formula_text(cell(column), formula, value, column_at(column).look);
}

void Table::close(const std::string& when_empty) {
  if (rows_ > 0) return;
  row();
  sheet_.text(cell(0), when_empty, look::note);
}

Cell Table::close(const std::string& label, const std::string& when_empty) {
  close(when_empty);
  const std::vector<Sum> sums = sums_;
  const Cell total{at_ + 1, 0};
  sheet_.text(total, label, look::total);
  sheet_.together(at_, total.row);
  for (std::uint16_t i = 0; i < columns_.size(); ++i) {
    if (!columns_[i].summed) continue;
    const std::string all = "SUM(" + range(i) + ")";
    Look look = columns_[i].look;
    look.role = Role::total;
    const Cell at{total.row, i};
    if (look.form == Form::money)
      sheet_.formula(at, formula::rounded(all, sheet_.currency()), sums[i].money, look);
    else
      sheet_.formula(
          at, formula::rounded(all, 3),
          sums[i].thousandths != 0 ? static_cast<double>(sums[i].thousandths) / 1000 : sums[i].number, look);
  }
  return total;
}

}  // namespace nonrunner::reports

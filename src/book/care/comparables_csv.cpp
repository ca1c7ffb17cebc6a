#include "book/care/comparables_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "exact/hint.h"
#include "exact/nearest.h"
#include "text/csv.h"
#include "text/lower_case.h"
#include "text/unicode.h"

namespace nonrunner::book {

const std::vector<FileKey>& comparable_columns() {
  static const std::vector<FileKey> all = {
      {"price", true, "an amount above 0"},
      {"kind", true, "asking or sold; the heading may also be \"asking|sold\""},
      {"odometer", true, "what it stands at"},
      {"year", true, "of the model"},
      {"grade", false, "1 rough to 5 spotless; else 3"},
      {"date", false, "when it was seen, YYYY-MM-DD; else today"},
      {"note", false, "words"},
      {"model", false, "words that a car's description has to have; else what is said for all rows"}};
  return all;
}

namespace {

std::map<std::string, std::size_t> heading(const std::vector<std::string>& cells, const std::string& place) {
  static const std::vector<std::string> columns = names_of(comparable_columns());
  std::map<std::string, std::size_t> at;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const std::string written = lower_case(cells[i]), column = written == "asking|sold" ? "kind" : written;
    if (std::find(columns.begin(), columns.end(), column) == columns.end()) {
      const std::string found =
          fmt::format("{}: unknown column \"{}\"", place, printable(cells[i].substr(0, 40)));
      if (const std::string near = did_you_mean(column, columns); !near.empty()) throw Refusal(found + near);
      throw hinted<Refusal>(found, {Action::list_comparable_columns, {}});
    }
    if (!at.emplace(column, i).second)
      throw Refusal(fmt::format("{}: the column \"{}\" stands twice", place, column));
  }
  for (const FileKey& column : comparable_columns())
    if (column.must && !at.contains(column.key))
      throw Refusal(
          fmt::format("{}: there is no column \"{}\", expected it in the heading", place, column.key));
  return at;
}

// A first row that holds a digit where the price would stand is a row of figures, well written or not.
bool begins_with_a_figure(const std::vector<std::string>& cells) {
  return cells[0].find_first_of("0123456789") != std::string::npos;
}

// One row, read by the heading; every refusal names the line of the file and the column.
class ReadRow {
 public:
  ReadRow(const std::vector<std::string>& cells, const std::map<std::string, std::size_t>& at,
          std::string place, char parted)
      : cells_(cells), at_(at), place_(std::move(place)), parted_(parted) {
    if (cells.size() > at.size())
      throw Refusal(fmt::format("{}: found {} cells, expected at most {}", place_, cells.size(), at.size()));
  }

  book::KeptComparable comparable(const Currency& currency, const std::string& model, Day today) const {
    book::KeptComparable each;
    each.price = as("price", [&](const std::string& value) {
      return Money::parse(csv_number(value, parted_), currency);
    });
    expect(each.price > Money{}, "price", "an amount above 0");
    const std::string kind = lower_case(cell("kind"));
    expect(kind == "asking" || kind == "sold", "kind", "asking or sold");
    each.sold = kind == "sold";
    each.odometer =
        as("odometer", [&](const std::string& value) { return Distance::parse(csv_number(value, parted_)); });
    expect(each.odometer >= Distance{}, "odometer", "a distance of 0 or more");
    const auto year = scaled(cell("year"), 0);
    expect(year && *year >= 1886 && *year <= 2200, "year", "the year of the model, such as 2012");
    each.year = static_cast<int>(*year);
    const auto grade =
        cell("grade").empty()
            ? std::optional<std::int64_t>(3000)
            : as("grade", [&](const std::string& value) { return scaled(csv_number(value, parted_), 3); });
    expect(grade && *grade >= 1000 && *grade <= 5000, "grade", "a grade from 1 (rough) to 5 (spotless)");
    each.grade = Quantity::of(*grade);
    each.day = cell("date").empty() ? today : as("date", Day::parse);
    expect(each.day <= today, "date", "a day that has been, " + today.iso() + " at the latest");
    each.note = cell("note");
    each.model = cell("model").empty() ? model : cell("model");
    return each;
  }

 private:
  std::string cell(const std::string& column) const {
    const auto found = at_.find(column);
    return found == at_.end() || found->second >= cells_.size()
               ? std::string{}
               : without_csv_apostrophe(cells_[found->second]);
  }
  template <class Read>
  std::invoke_result_t<Read, std::string> as(const std::string& column, Read read) const {
    try {
      return read(cell(column));
    } catch (const Refusal& refusal) {
      throw Refusal(fmt::format("{}: the column \"{}\": {}", place_, column, refusal.what()));
    }
  }
  void expect(bool fits, const std::string& column, const std::string& expected) const {
    if (!fits)
      throw Refusal(fmt::format("{}: the column \"{}\": found \"{}\", expected {}", place_, column,
                                cell(column), expected));
  }

  const std::vector<std::string>& cells_;
  const std::map<std::string, std::size_t>& at_;
  std::string place_;
  char parted_;
};

}  // namespace

std::vector<book::KeptComparable> read_comparables_csv(const std::string& text, const std::string& name,
                                                       const Currency& currency, const std::string& model,
                                                       Day today) {
  std::vector<book::KeptComparable> all;
  std::map<std::string, std::size_t> at;
  const std::string first = text.substr(0, text.find('\n'));
  const char parted = std::count(first.begin(), first.end(), '\t') >= 3 ? '\t' : csv_parted(first);
  read_csv(
      text, name,
      [&](const std::vector<std::string>& cells, int line) {
        const std::string place = fmt::format("{}:{}", name, line);
        if (at.empty()) {
          const bool is_heading = !begins_with_a_figure(cells);
          const std::vector<std::string> all_columns = names_of(comparable_columns());
          at = heading(
              is_heading ? cells : std::vector<std::string>(all_columns.begin(), all_columns.begin() + 7),
              place);
          if (is_heading) return;
        }
        all.push_back(ReadRow(cells, at, place, parted).comparable(currency, model, today));
      },
      parted);
  if (all.empty()) throw Refusal(name + ": there is no row, expected a heading and rows, or rows alone");
  return all;
}

}  // namespace nonrunner::book

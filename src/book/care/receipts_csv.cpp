#include "book/care/receipts_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <istream>
#include <map>

#include "book/events/fields.h"
#include "book/ledger/marks.h"
#include "exact/hint.h"
#include "exact/nearest.h"
#include "text/csv.h"
#include "text/lower_case.h"
#include "text/tag.h"

namespace nonrunner::book {

const std::vector<FileKey>& receipt_columns() {
  static const std::vector<FileKey> all = {
      {"date", true, "YYYY-MM-DD"},
      {"supplier", true, "who gave it"},
      {"number", false,
       "the paper's number; rows in a run that share date, supplier and number are one paper"},
      {"purse", true, "which purse paid"},
      {"total", false, "as printed; else the sum"},
      {"tax", false, "of the whole paper, on any of its rows"},
      {"shipping", false, "the same"},
      {"discount", false, "the same"},
      {"what", true, "what the line is"},
      {"qty", false, "pieces; else 1"},
      {"unit", false, "the price for one"},
      {"amount", false, "or the line's amount: one of the two"},
      {"kind", true, "part, consumable, sublet, fee, stock, tool, overhead or private"},
      {"source", false, "new, salvage or reman"},
      {"to", false, "the car's tag"},
      {"stock", false, "the item of the shelf"},
      {"gives", false, "used units in each piece bought: a box of 100; else 1"},
      {"core", false, "deposit for each piece"},
      {"taxed", false, "yes or no; else no"},
      {"id", false, "your own name for the line"},
      {"for", false, "the line of the car's budget that it stands under, by its name; none: no line"}};
  return all;
}

namespace {

class CsvRow {
 public:
  CsvRow(const std::map<std::string, std::size_t>& at, const std::vector<std::string>& cells,
         std::string place, const CsvShape& shape, char parted)
      : at_(at), cells_(cells), place_(std::move(place)), shape_(shape), parted_(parted) {}

  std::string text(const std::string& column) const {
    const auto found = at_.find(column);
    if (found != at_.end())
      return found->second >= cells_.size() ? "" : without_csv_apostrophe(cells_[found->second]);
    const auto fixed = shape_.fixed.find(column);
    return fixed == shape_.fixed.end() ? "" : fixed->second;
  }
  std::string need(const std::string& column, const std::string& expected) const {
    const std::string value = text(column);
    if (value.empty())
      throw Refusal(fmt::format("{}: the column \"{}\" is empty, expected {}", place_, column, expected));
    return value;
  }
  // A cell read by `read`, whose refusal gets the place and the column.
  template <class Read>
  auto as(const std::string& column, Read read) const {
    try {
      return read(text(column));
    } catch (const Refusal& refusal) {
      throw Refusal(fmt::format("{}: the column \"{}\": {}", place_, column, refusal.what()));
    }
  }
  // The same of a number, whose comma may be a decimal one.
  template <class Read>
  auto as_number(const std::string& column, Read read) const {
    return as(column, [&](const std::string& typed) { return read(csv_number(typed, parted_)); });
  }
  const std::string& place() const { return place_; }

 private:
  const std::map<std::string, std::size_t>& at_;
  const std::vector<std::string>& cells_;
  std::string place_;
  const CsvShape& shape_;
  char parted_;
};

std::map<std::string, std::size_t> heading(const std::vector<std::string>& cells, const std::string& name,
                                           int line, const CsvShape& shape) {
  static const std::vector<std::string> columns = names_of(receipt_columns());
  std::map<std::string, std::size_t> at;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    std::string column = lower_case(cells[i]);
    const auto theirs = shape.columns.find(column);
    if (theirs == shape.columns.end() && !shape.columns.empty()) continue;
    if (theirs != shape.columns.end()) column = theirs->second;
    if (std::find(columns.begin(), columns.end(), column) == columns.end()) {
      const std::string found = fmt::format("{}:{}: unknown column \"{}\"", name, line, cells[i]);
      if (const std::string near = did_you_mean(column, columns); !near.empty()) throw Refusal(found + near);
      throw hinted<Refusal>(found, {Action::list_receipt_columns, {}});
    }
    if (!at.emplace(column, i).second)
      throw Refusal(fmt::format("{}:{}: the column \"{}\" stands twice", name, line, column));
  }
  for (const FileKey& column : receipt_columns())
    if (column.must && !at.contains(column.key) && !shape.fixed.contains(column.key))
      throw Refusal(fmt::format("{}:{}: there is no column \"{}\", expected it in the heading", name, line,
                                column.key));
  return at;
}

// What parts the cells, by the heading.
char parted_in(std::istream& in) {
  const auto begin = in.tellg();
  std::string first;
  std::getline(in, first);
  in.clear();
  in.seekg(begin);
  return csv_parted(first);
}

void check_word(const CsvRow& row, const std::string& column, const std::string& word,
                const std::vector<std::string>& known) {
  if (std::find(known.begin(), known.end(), word) == known.end())
    throw Refusal(fmt::format("{}: the column \"{}\": found \"{}\", expected {}{}", row.place(), column, word,
                              book::one_of(known), did_you_mean(word, known)));
}

book::ReceiptLine line_of(const CsvRow& row, const Currency& currency) {
  book::ReceiptLine line;
  line.place = row.place();
  line.id = row.text("id");
  line.what = row.need("what", "what was bought");
  line.kind = row.need("kind", book::one_of(book::line_kinds()));
  check_word(row, "kind", line.kind, book::line_kinds());
  if (!row.text("qty").empty()) line.quantity = row.as_number("qty", Quantity::parse);
  const auto price = [&](const std::string& text) { return Price::parse(text, currency); };
  const auto money = [&](const std::string& text) { return Money::parse(text, currency); };
  if (!row.text("unit").empty()) line.unit = row.as_number("unit", price);
  if (!row.text("amount").empty()) line.amount = row.as_number("amount", money);
  line.source = row.text("source");
  if (!line.source.empty()) check_word(row, "source", line.source, book::line_sources());
  const std::string to = as_tag(row.text("to"));
  if (!to.empty() && to != "tools" && to != "owner" && to != "overhead" && to != "stock")
    line.shares.push_back({to, 1000});
  if (const std::string under = row.text("for"); !under.empty()) {
    if (line.shares.empty())
      throw Refusal(
          fmt::format("{}: the column \"for\": found \"{}\" on a line for no car, expected a car in the "
                      "column \"to\", or nothing",
                      row.place(), under));
    if (std::all_of(under.begin(), under.end(), [](char c) { return c >= '0' && c <= '9'; }))
      throw Refusal(
          fmt::format("{}: the column \"for\": found the number {}, expected the name of a line of the "
                      "budget, or none; numbers are for one car's screens",
                      row.place(), under));
    line.under[line.shares.front().vehicle] = under == under_none ? "" : under;
  }
  line.stock = row.text("stock");
  if (!row.text("gives").empty()) line.gives = row.as_number("gives", Quantity::parse);
  if (!row.text("core").empty()) line.core = row.as_number("core", money);
  const std::string taxed = row.text("taxed");
  if (!taxed.empty() && taxed != "yes" && taxed != "no")
    throw Refusal(
        fmt::format("{}: the column \"taxed\": found \"{}\", expected yes or no", row.place(), taxed));
  line.taxed = taxed == "yes";
  return line;
}

// The paper's own figures may stand on any of its rows, but not twice with different values.
void take_once(const CsvRow& row, const std::string& column, const Currency& currency,
               std::optional<Money>& into) {
  if (row.text(column).empty()) return;
  const Money value =
      row.as_number(column, [&](const std::string& text) { return Money::parse(text, currency); });
  if (into && *into != value)
    throw Refusal(
        fmt::format("{}: the column \"{}\" differs from an earlier row of the same paper, expected it once",
                    row.place(), column));
  into = value;
}

struct Paper {
  CsvReceipt csv;
  std::string purse;
  std::optional<Money> total, tax, shipping, discount;
};

CsvReceipt finished(Paper paper) {
  book::Receipt& receipt = paper.csv.receipt;
  receipt.tax = paper.tax.value_or(Money{});
  receipt.shipping = paper.shipping.value_or(Money{});
  receipt.discount = paper.discount.value_or(Money{});
  Money sum = receipt.tax + receipt.shipping - receipt.discount;
  for (const book::ReceiptLine& line : receipt.lines)
    sum += (line.amount ? *line.amount
            : line.unit ? line.unit->times(line.quantity)
                        : Money{}) +
           Price::of(line.core).times(line.quantity);
  receipt.total = paper.total.value_or(sum);
  receipt.paid = {{paper.purse, receipt.total}};
  return paper.csv;
}

}  // namespace

void read_receipts_csv(std::istream& in, const std::string& name, const Currency& currency,
                       const std::function<void(const CsvReceipt&)>& take, const CsvShape& shape) {
  const char parted = parted_in(in);
  std::size_t width = 0;
  std::map<std::string, std::size_t> at;
  std::optional<Paper> paper;
  read_csv(
      in, name,
      [&](const std::vector<std::string>& cells, int line) {
        if (at.empty()) {
          at = heading(cells, name, line, shape);
          width = cells.size();
          return;
        }
        const CsvRow row(at, cells, fmt::format("{}:{}", name, line), shape, parted);
        if (cells.size() > width)
          throw Refusal(fmt::format("{}: found {} cells, expected {} as in the heading", row.place(),
                                    cells.size(), width));
        const Day day = row.as("date", Day::parse);
        const std::string supplier = row.need("supplier", "who gave the paper"), number = row.text("number"),
                          purse = row.need("purse", "the purse that paid");
        const bool same = paper && !number.empty() && paper->csv.receipt.day == day &&
                          paper->csv.receipt.supplier == supplier && paper->csv.receipt.number == number;
        if (!same) {
          if (paper) take(finished(*std::move(paper)));
          paper.emplace();
          paper->csv.row = line;
          paper->csv.receipt.day = day;
          paper->csv.receipt.supplier = supplier;
          paper->csv.receipt.number = number;
          paper->purse = purse;
        } else if (paper->purse != purse) {
          throw Refusal(fmt::format(
              "{}: the purse differs from the first row of the same paper, expected one purse a paper",
              row.place()));
        }
        take_once(row, "total", currency, paper->total);
        take_once(row, "tax", currency, paper->tax);
        take_once(row, "shipping", currency, paper->shipping);
        take_once(row, "discount", currency, paper->discount);
        paper->csv.receipt.lines.push_back(line_of(row, currency));
      },
      parted);
  if (at.empty()) throw Refusal(name + ": the file is empty, expected a heading and rows");
  if (paper) take(finished(*std::move(paper)));
}

}  // namespace nonrunner::book

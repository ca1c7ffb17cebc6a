#include "book/questions/journal.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/ledger/position.h"
#include "exact/ends.h"

namespace nonrunner::book {

std::string words_for(const std::string& event) {
  const Value value = kept_event(event);
  const Value* e = value.find("e");
  const auto text = [&](const char* key) {
    const Value* found = e->find(key);
    return found ? found->text : std::string();
  };
  std::string what;
  const auto add = [&](const std::string& part) {
    if (!part.empty()) what += (what.empty() ? "" : ", ") + part;
  };
  add(text("vehicle"));
  if (const Value* share = e->find("share"))
    for (const auto& [tag, weight] : share->entries) add(tag);
  add(text("supplier"));
  add(text("number"));
  if (const Value* lines = e->find("line"); lines && !lines->items.empty()) {
    const Value* first = lines->items.front().find("what");
    if (first)
      add(first->text +
          (lines->items.size() > 1 ? fmt::format(" and {} more", lines->items.size() - 1) : ""));
  } else if (lines) {
    add(lines->text);
  }
  for (const char* key : {"operation", "what", "stock", "why", "text", "name", "from", "to", "purse"})
    add(text(key));
  if (e->find("kept")) add("deposit not given back");
  if (const Value* paper = e->find("paper"); paper && !paper->flag) add("no paper");
  return what;
}

namespace {

// What a person calls the amount of an entry: the price of a sale, what a finished car lost, what came into
// the purses or went out of them; where no purse is touched, what was moved.
Money amount_of(const std::vector<Posting>& postings) {
  Money in, out, debits;
  for (const Posting& posting : postings) {
    if (posting.kind == account::sales || posting.kind == account::written_off)
      return std::max(posting.amount, -posting.amount);
    const bool debit = posting.amount > Money{};
    if (debit) debits += posting.amount;
    if (posting.kind == account::purse) (debit ? in : out) += posting.amount;
  }
  const Money through_purses = std::max(in, -out);
  return is_zero(through_purses) ? debits : through_purses;
}

// What a finished car lost, on the day of its write-off.
Money lost(const Book& book, const JournalRow& row) {
  auto& car = book.query("SELECT vehicle FROM life WHERE entry = ?");
  car.bind(1, row.entry);
  if (!car.executeStep()) return {};
  const std::string tag = car.getColumn(0).getString();
  car.tryReset();
  return position_of(book, tag, row.day).cost_of_sale;
}

// A line that went back, or to the shelf, says what it is beside its id.
std::string name_of_line(const Book& book, const std::string& event) {
  if (event.find(", line = \"") == std::string::npos) return "";
  const Value value = kept_event(event);
  const Value* id = value.find("e")->find("line");
  if (!id || id->kind != Value::Kind::text) return "";
  auto& find = book.query("SELECT what FROM line WHERE id = ? ORDER BY line DESC LIMIT 1");
  find.bind(1, id->text);
  std::string name;
  if (find.executeStep()) name = find.getColumn(0).getString();
  find.tryReset();
  return name;
}

}  // namespace

std::vector<JournalRow> journal(const Book& book, const std::string& vehicle) {
  std::vector<JournalRow> rows;
  const std::string select =
      "SELECT e.entry, e.day, e.kind, e.event, e.voids, (SELECT v.entry FROM entry v WHERE v.voids = "
      "e.entry) FROM entry e ";
  auto& query =
      vehicle.empty()
          ? book.query(select + "ORDER BY e.entry")
          : book.query(select +
                       "WHERE e.entry IN (SELECT entry FROM mention WHERE vehicle = ?) ORDER BY e.entry");
  if (!vehicle.empty()) query.bind(1, vehicle);
  while (query.executeStep()) {
    JournalRow row;
    row.entry = query.getColumn(0).getInt64();
    row.day = Day::parse(query.getColumn(1).getString());
    row.kind = query.getColumn(2).getString();
    const std::string event = query.getColumn(3).getString();
    try {
      const std::string name = name_of_line(book, event);
      row.what = (name.empty() ? "" : name + ", ") + words_for(event);
    } catch (const Refusal&) {  // the others are shown all the same
      row.what = "CANNOT BE READ: changed by another program";
    }
    if (!query.getColumn(4).isNull()) row.voids = query.getColumn(4).getInt64();
    if (!query.getColumn(5).isNull()) row.voided_by = query.getColumn(5).getInt64();
    auto& postings = book.query(
        "SELECT a.kind, a.name, p.amount, p.quantity FROM posting p JOIN account a USING (account) WHERE "
        "p.entry = ? ORDER BY p.seq");
    postings.bind(1, row.entry);
    while (postings.executeStep()) {
      Posting posting{postings.getColumn(0).getString(),
                      postings.getColumn(1).getString(),
                      Money::of_minor(postings.getColumn(2).getInt64()),
                      {},
                      {}};
      if (!postings.getColumn(3).isNull()) posting.quantity = Quantity::of(postings.getColumn(3).getInt64());
      row.postings.push_back(std::move(posting));
    }
    row.amount = row.kind == "write off" && row.postings.empty() ? lost(book, row) : amount_of(row.postings);
    rows.push_back(std::move(row));
  }
  return rows;
}

std::vector<Line> lines_of(const Book& book, const std::string& vehicle) {
  std::vector<std::int64_t> numbers;
  auto& query =
      vehicle.empty()
          ? book.query("SELECT l.line FROM line l JOIN live_entry USING (entry) ORDER BY l.line")
          : book.query(
                "SELECT l.line FROM line l JOIN live_entry USING (entry) JOIN share s ON s.line = l.line "
                "WHERE s.vehicle = ? ORDER BY l.line");
  if (!vehicle.empty()) query.bind(1, vehicle);
  while (query.executeStep()) numbers.push_back(query.getColumn(0).getInt64());
  std::vector<Line> lines;
  for (const std::int64_t number : numbers) lines.push_back(line_by_number(book, number));
  return lines;
}

}  // namespace nonrunner::book

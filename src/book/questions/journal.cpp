#include "book/questions/journal.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "book/ledger/position.h"
#include "book/ledger/query.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace {
std::string words_of(const Value& value) {
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
  if (const Value* named = e->find("lines"); named && named->kind == Value::Kind::array)
    for (const Value& line : named->items) add(line.text);
  for (const char* key : {"says", "operation", "what", "stock", "why", "text", "name", "from", "to", "purse"})
    add(text(key));
  if (e->find("kept")) add("deposit not given back");
  if (const Value* paper = e->find("paper"); paper && !paper->flag) add("no paper");
  return what;
}
}  // namespace

std::string words_for(const std::string& event) { return words_of(kept_event(event)); }

namespace {

// What an entry says beside its money, where it is of that kind: how long, how far, what was asked.
const std::string measured_columns =
    "coalesce(CASE e.kind WHEN 'hours' THEN (SELECT sum(own + paid) FROM labour l WHERE l.entry = e.entry) "
    "END, 0), coalesce(CASE e.kind WHEN 'trip' THEN (SELECT sum(distance) FROM trip t WHERE t.entry = "
    "e.entry) END, 0), CASE e.kind WHEN 'advertised' THEN (SELECT price FROM advert a WHERE a.entry = "
    "e.entry) END";

// What a person calls the amount of an entry: the price of a sale, what a finished car lost, what came into
// the purses or went out of them; where no purse is touched, what was moved.
Money amount_of(const std::string& kind, const std::vector<Posting>& postings) {
  Money in, out, debits;
  for (const Posting& posting : postings) {
    if (posting.kind == account::sales || posting.kind == account::written_off)
      return std::max(posting.amount, -posting.amount);
    const bool debit = posting.amount > Money{};
    if (debit) debits += posting.amount;
    if (posting.kind == account::purse) (debit ? in : out) += posting.amount;
  }
  if (kind == "receipt" && in > -out) return -in;  // a paper by which money came back
  const Money through_purses = std::max(in, -out);
  return is_zero(through_purses) ? debits : through_purses;
}

// What a finished car lost, on the day of its write-off.
Money lost(const Book& book, const JournalRow& row) {
  const auto tag =
      first<std::string>(book, "SELECT vehicle FROM life WHERE entry = :entry", {{":entry", row.entry}});
  return tag ? position_of(book, *tag, row.day).cost_of_sale : Money{};
}

// A line that went back, or to the shelf, says what it is beside its id.
std::string name_of_line(const Book& book, const std::string& event) {
  if (event.find(", line = \"") == std::string::npos) return "";
  const Value value = kept_event(event);
  const Value* id = value.find("e")->find("line");
  if (!id || id->kind != Value::Kind::text) return "";
  return first<std::string>(book, "SELECT what FROM line WHERE id = :id ORDER BY line DESC LIMIT 1",
                            {{":id", id->text}})
      .value_or("");
}

// What became of the lines of receipts since, by the receipt.
struct Since {
  std::set<EntryId> went_back, moved;
};
Since since_then(const Book& book) {
  Since since;
  each<EntryId>(
      book,
      "SELECT DISTINCT l.entry FROM given_back g JOIN live_entry e USING (entry) JOIN line l ON l.line = "
      "g.line WHERE l.entry <> g.entry",
      {}, [&](EntryId entry) { since.went_back.insert(entry); });
  each<EntryId>(
      book,
      "SELECT DISTINCT l.entry FROM charged c JOIN live_entry e USING (entry) JOIN line l ON l.line = c.line "
      "WHERE l.entry <> c.entry AND EXISTS (SELECT 1 FROM share s WHERE s.line = c.line)",
      {}, [&](EntryId entry) { since.moved.insert(entry); });
  return since;
}

std::vector<Posting> postings_of(const Book& book, EntryId entry) {
  std::vector<Posting> postings;
  rows(book,
       "SELECT a.kind, a.name, p.amount, p.quantity FROM posting p JOIN account a USING (account) WHERE "
       "p.entry = :entry "
       "ORDER BY p.seq",
       {{":entry", entry}}, [&](const Row& row) {
         Posting& posting = postings.emplace_back();
         row.into(posting.kind, posting.name, posting.amount, posting.quantity);
       });
  return postings;
}

}  // namespace

std::vector<JournalRow> journal(const Book& book, const std::string& vehicle) {
  std::vector<JournalRow> all;
  const Since since = since_then(book);
  const std::string which =
      vehicle.empty() ? ":tag = ''" : "e.entry IN (SELECT entry FROM mention WHERE vehicle = :tag)";
  rows(book,
       "SELECT e.entry, e.day, e.kind, e.event, e.voids, (SELECT v.entry FROM entry v WHERE v.voids = "
       "e.entry), " +
           measured_columns + " FROM entry e WHERE " + which + " ORDER BY e.entry",
       {{":tag", vehicle}}, [&](const Row& each) {
         JournalRow& row = all.emplace_back();
         std::string event;
         each.into(row.entry, row.day, row.kind, event, row.voids, row.voided_by, row.hours, row.distance,
                   row.asked);
         try {
           const std::string name = name_of_line(book, event);
           const Value value = kept_event(event);
           row.what = (name.empty() ? "" : name + ", ") + words_of(value);
           if (const Value* supplier = value.find("e")->find("supplier")) row.supplier = supplier->text;
         } catch (const Refusal&) {  // the others are shown all the same
           row.what = "CANNOT BE READ: changed by another program";
         }
         row.went_back = since.went_back.contains(row.entry);
         row.moved = since.moved.contains(row.entry);
         row.postings = postings_of(book, row.entry);
         row.amount = row.kind == "write off" && row.postings.empty() ? lost(book, row)
                                                                      : amount_of(row.kind, row.postings);
       });
  return all;
}

std::vector<Line> lines_of(const Book& book, const std::string& vehicle) {
  std::vector<std::int64_t> numbers;
  const std::string which =
      vehicle.empty() ? "WHERE :tag = ''" : "JOIN share s ON s.line = l.line WHERE s.vehicle = :tag";
  each<std::int64_t>(book,
                     "SELECT l.line FROM line l JOIN live_entry USING (entry) " + which + " ORDER BY l.line",
                     {{":tag", vehicle}}, [&](std::int64_t number) { numbers.push_back(number); });
  std::vector<Line> lines;
  for (const std::int64_t number : numbers) lines.push_back(line_by_number(book, number));
  return lines;
}

}  // namespace nonrunner::book

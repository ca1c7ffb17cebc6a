#include "book/ledger/entry.h"

#include <fmt/format.h>
#include <nettle/sha2.h>

#include <algorithm>
#include <cstring>
#include <map>
#include <set>
#include <string_view>
#include <utility>

#include "book/ledger/checks.h"
#include "book/ledger/day_checks.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/details.h"
#include "book/ledger/kept.h"
#include "book/ledger/limits.h"
#include "book/ledger/marks.h"
#include "book/ledger/purposes.h"
#include "book/ledger/query.h"
#include "book/ledger/shelf_days.h"
#include "book/ledger/taken_back.h"
#include "exact/hint.h"

namespace nonrunner::book {

const std::vector<DetailTable>& detail_tables() {
  static const std::vector<DetailTable> tables = [] {
    std::vector<DetailTable> all = {
        {"line",
         "line, id, what, quantity, amount, kind, source, taxed, tax, extra, core, core_tax, core_by, stock, "
         "gives, supplier",
         0},
        {"share", "line, vehicle, weight", 0},
        {"given_back", "line, what, quantity, goods, tax, kept", 0},
        {"paper", "supplier, number, total, itemised, on_paper, back_by", 0},
        {"labour", "vehicle, operation, own, paid, rate", 0},
        {"trip", "vehicle, distance", 0},
        {"advert", "vehicle, price", 0},
        {"deposit_by", "account, supplier, by_day", 0},
        {"attachment", "vehicle, sha256, name, size", 0},
        {"mention", "vehicle", 0},
        {"life", "vehicle, turn", 0},
        {"part_out", "vehicle, still_brings", 0},
        {"purpose", "vehicle, kind, what, line, quantity, amount, stands", 0},
        {"purchase", "vehicle, price, fees", 0},
        {"sale", "vehicle, price, rate", 0},
        {"discount", "line, amount", 0},
        {"kept_tool", "line", 0},
        {"charged", "line, vehicle, amount", 0},
        {"printed", "day", 0},
        {"noted", "vehicle, text, cause", 0},
        {"errand", "why", 0},
        {"shelf", "item, what, about, vehicle, line, quantity, amount, said", 0},
        {"mark", "vehicle, line, says, name", 0},
        {"found", "vehicle, what, name, value", 0},
        {"planned", "vehicle, name, amount, quantity, hours", 0},
        {"noted_before", "note, seal", 0},
        {"named", "vehicle, fact, value", 0},
        {"stood", "day, own, paid", 0},
        {"place", "takes, how", 0},
        {"unnamed", "line", 0},
        {"ended", "day", 0},
    };
    for (DetailTable& table : all)
      table.width = 1 + static_cast<std::size_t>(std::count(table.columns.begin(), table.columns.end(), ','));
    return all;
  }();
  return tables;
}

std::size_t detail_table(std::string_view name) {
  const auto& tables = detail_tables();
  const auto found = std::find_if(tables.begin(), tables.end(),
                                  [&](const DetailTable& table) { return table.name == name; });
  if (found == tables.end()) throw std::logic_error("no detail table " + std::string(name));
  return static_cast<std::size_t>(found - tables.begin());
}

namespace {

// Feeds fields to SHA-256 as length, colon, bytes (a netstring): "ab" + "c" and "a" + "bc" differ.
class Seal {
 public:
  Seal() { sha256_init(&context_); }
  void bytes(const void* data, std::size_t size) {
    sha256_update(&context_, size, static_cast<const std::uint8_t*>(data));
  }
  void field(std::string_view text) {
    const std::string size = std::to_string(text.size()) + ":";
    bytes(size.data(), size.size());
    bytes(text.data(), text.size());
  }
  void field(std::int64_t number) { field(std::to_string(number)); }
  void value(const Cell& cell) {
    if (const auto* number = std::get_if<std::int64_t>(&cell)) {
      field("i");
      field(*number);
    } else if (const auto* text = std::get_if<std::string>(&cell)) {
      field("t");
      field(*text);
    } else {
      field("n");
    }
  }
  Hash digest() {
    Hash hash;
    sha256_digest(&context_, hash.size(), hash.data());
    return hash;
  }

 private:
  sha256_ctx context_;
};

void bind(SQLite::Statement& statement, int at, const Cell& cell) {
  if (const auto* number = std::get_if<std::int64_t>(&cell))
    statement.bind(at, *number);
  else if (const auto* text = std::get_if<std::string>(&cell))
    statement.bind(at, *text);
  else
    statement.bind(at);
}

const std::string& insert_detail(std::size_t table) {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> inserts;
    for (const DetailTable& each : detail_tables()) {
      std::string marks = "?";
      for (std::size_t i = 0; i < each.width; ++i) marks += ", ?";
      inserts.push_back(
          fmt::format("INSERT INTO {} (entry, {}) VALUES ({})", each.name, each.columns, marks));
    }
    return inserts;
  }();
  return all[table];
}

Hash hash_of_last(const Book& book, EntryId last) {
  Hash hash{};
  if (last == 0) return hash;
  row(book, "SELECT hash FROM entry WHERE entry = :entry", {{":entry", last}}, [&](const Row& head) {
    const std::string bytes = head.text(0);
    std::memcpy(hash.data(), bytes.data(), std::min(hash.size(), bytes.size()));
  });
  return hash;
}

}  // namespace

Hash sealed(const Entry& entry, const Hash& previous) {
  Seal seal;
  seal.bytes(previous.data(), previous.size());
  seal.field(entry.id);
  seal.field(entry.day.iso());
  seal.field(entry.kind);
  seal.field(entry.event);
  seal.field(entry.voids.value_or(0));
  seal.field(entry.recorded);
  seal.field(static_cast<std::int64_t>(entry.postings.size()));
  for (const Posting& posting : entry.postings) {
    seal.field(posting.kind);
    seal.field(posting.name);
    seal.field(posting.amount.minor());
    seal.value(posting.quantity ? Cell(posting.quantity->thousandths()) : Cell());
    if (posting.stands) {  // entries of the older layout have none and are sealed as they were
      seal.field("stands");
      seal.field(posting.stands->iso());
    }
  }
  for (const Detail& detail : entry.details) {
    seal.field(detail_tables()[detail.table].name);
    for (const Cell& cell : detail.cells) seal.value(cell);
  }
  return seal.digest();
}

namespace {
// The first entry that is sealed with the rows of each detail table; those before it were sealed without.
const std::vector<EntryId>& sealed_with(const Book& book) {
  std::vector<EntryId>& from = book.sealed_with;
  if (!from.empty()) return from;
  std::map<std::string, EntryId> known;
  each<std::string, EntryId>(book, "SELECT what, entry FROM sealed_from", {},
                             [&](const std::string& what, EntryId entry) { known[what] = entry; });
  for (const DetailTable& table : detail_tables())
    from.push_back(known.contains(table.name) ? known[table.name] : 1);
  return from;
}
}  // namespace

Entry load_entry(const Book& book, EntryId id) {
  Entry entry;
  entry.id = id;
  const bool found = row(
      book, "SELECT day, kind, event, voids, recorded FROM entry WHERE entry = :entry", {{":entry", id}},
      [&](const Row& head) { head.into(entry.day, entry.kind, entry.event, entry.voids, entry.recorded); });
  if (!found)
    throw hinted<Refusal>(fmt::format("entry {}: there is no such entry", id), {Action::list_entries, {}});
  rows(book,
       "SELECT a.kind, a.name, p.amount, p.quantity, p.stands FROM posting p JOIN account a USING (account) "
       "WHERE p.entry = :entry ORDER BY p.seq",
       {{":entry", id}}, [&](const Row& of) {
         Posting& posting = entry.postings.emplace_back();
         of.into(posting.kind, posting.name, posting.amount, posting.quantity, posting.stands);
       });
  for (std::size_t table = 0; table < detail_tables().size(); ++table) {
    const DetailTable& about = detail_tables()[table];
    if (id < sealed_with(book)[table]) continue;
    rows(book,
         fmt::format("SELECT {} FROM {} WHERE entry = :entry ORDER BY rowid", about.columns, about.name),
         {{":entry", id}}, [&](const Row& of) {
           Detail& detail = entry.details.emplace_back(Detail{table, {}});
           for (std::size_t i = 0; i < about.width; ++i) detail.cells.push_back(of.cell(static_cast<int>(i)));
         });
  }
  return entry;
}

Draft::Draft(Recording& recording, std::string kind, Day day)
    : event(recording.currency()), recording_(recording), given_(day) {
  entry_.kind = std::move(kind);
  entry_.day = entry_.kind == "close" ? day : open_day(recording.book(), day);
  event.text("do", entry_.kind).day("date", day);
  if (entry_.day == day) return;
  detail("printed", {day.iso()});
  recording.remarks().push_back(
      fmt::format("{}: the day {} lies in a period that is closed: it counts from {}", entry_.kind, day.iso(),
                  entry_.day.iso()));
}

void Draft::post(const std::string& kind, const std::string& name, Money amount,
                 std::optional<Quantity> quantity, std::optional<Day> stands) {
  if (is_zero(amount) && !quantity) return;
  entry_.postings.push_back({kind, name, amount, quantity, stands});
}

void Draft::purpose(const Purpose& of) {
  const bool shown = of.kind == "sale" || of.line != 0;
  if (is_zero(of.amount) && !shown) return;
  const auto day = of.stands == entry_.day ? std::nullopt : of.stands;
  detail("purpose", {of.vehicle, of.kind, of.what, of.line == 0 ? Cell() : Cell(of.line),
                     of.quantity ? Cell(of.quantity->thousandths()) : Cell(), of.amount.minor(), cell(day)});
}

// What an entry puts into a car is named to the last unit, or a report would not add up to the book.
void Draft::expect_purposes() const {
  std::map<std::string, Money> unnamed;
  for (const Posting& posting : entry_.postings)
    if (posting.kind == account::vehicle_cost) unnamed[posting.name] += posting.amount;
  const std::size_t table = detail_table("purpose");
  for (const Detail& detail : entry_.details)
    if (detail.table == table && is_put_into_a_car(kind_of_purpose(text_in(detail, cells::purpose::kind))))
      unnamed[text_in(detail, cells::purpose::vehicle)] +=
          Money::of_minor(number_in(detail, cells::purpose::amount));
  for (const auto& [vehicle, amount] : unnamed)
    if (!is_zero(amount))
      throw std::logic_error("the entry for " + entry_.kind + " does not say what it puts into " + vehicle);
}

namespace {
// What was charged to cars of the tools that the entry brought which is taken back: what takes its place may bring less.
void check_tools(const Recording& recording, const Entry& reversal) {
  for (const Posting& posting : reversal.postings) {
    if (posting.kind != account::tools || !is_negative(posting.amount)) continue;
    const Money left = balance_of(recording.book(), posting.kind, posting.name).amount;
    if (is_negative(left))
      throw Refusal(
          fmt::format("void: without entry {} as it was, {} more of the tools was charged than there is, "
                      "expected at most what they cost",
                      *reversal.voids, (-left).plain(recording.currency())));
  }
}

}  // namespace

void settle_shelves(Recording& recording, const Entry& entry) {
  const std::size_t table = detail_table("shelf");
  std::map<std::string, Day> moved;  // from which day on
  for (const Detail& detail : entry.details) {
    if (detail.table != table) continue;
    const std::string& item = text_in(detail, cells::shelf::item);
    const Day about = Day::parse(text_in(detail, cells::shelf::about));
    const auto [at, is_new] = moved.emplace(item, about);
    if (!is_new) at->second = std::min(at->second, about);
  }
  for (const auto& [item, from] : moved) settle_shelf(recording, entry.kind, item, from, entry.day);
}

namespace {
void look_after_one(Recording& recording, const Entry& entry) {
  settle_shelves(recording, entry);
  check_days(recording, entry);
  if (entry.voids && recording.wary) check_tools(recording, entry);
}
}  // namespace

// What has to hold on every day once the entry is there, and what it changes of the shelf.
void Draft::look_after(const Entry& entry) const { look_after_one(recording_, entry); }

void look_after_held(Recording& recording) {
  for (const EntryId held : std::exchange(recording.held, {}))
    look_after_one(recording, load_entry(recording.book(), held));
}

void Draft::detail(std::string_view table, std::vector<Cell> cells) {
  const std::size_t index = detail_table(table);
  if (cells.size() != detail_tables()[index].width)
    throw std::logic_error("wrong number of cells for " + std::string(table));
  entry_.details.push_back({index, std::move(cells)});
}

void Draft::takes_place(EntryId of, const char* how) { detail("place", {of, std::string(how)}); }

void Draft::mention(const std::string& vehicle) {
  if (std::find(mentioned_.begin(), mentioned_.end(), vehicle) != mentioned_.end()) return;
  mentioned_.push_back(vehicle);
  detail("mention", {vehicle});
}

namespace {

// Postings and details first, the entry last: the triggers let it close only over what adds up.
void insert_rows(Recording& recording, const Entry& entry, const Hash& previous, const Hash& hash) {
  Book& book = recording.book();
  auto& posting_insert = book.query("INSERT INTO posting VALUES (?, ?, ?, ?, ?, ?)");
  std::int64_t seq = 0;
  for (const Posting& posting : entry.postings) {
    posting_insert.bind(1, entry.id);
    posting_insert.bind(2, ++seq);
    posting_insert.bind(3, account_id(recording, posting.kind, posting.name));
    posting_insert.bind(4, posting.amount.minor());
    if (posting.quantity)
      posting_insert.bind(5, posting.quantity->thousandths());
    else
      posting_insert.bind(5);
    if (posting.stands)
      posting_insert.bind(6, posting.stands->iso());
    else
      posting_insert.bind(6);
    posting_insert.exec();
    posting_insert.reset();
  }
  for (const Detail& detail : entry.details) {
    auto& insert = book.query(insert_detail(detail.table));
    insert.bind(1, entry.id);
    for (std::size_t i = 0; i < detail.cells.size(); ++i)
      bind(insert, static_cast<int>(i) + 2, detail.cells[i]);
    insert.exec();
  }
  auto& head = book.query("INSERT INTO entry VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
  head.bind(1, entry.id);
  head.bind(2, entry.day.iso());
  head.bind(3, entry.kind);
  head.bind(4, entry.postings.empty() ? 0 : 1);
  head.bind(5, entry.event);
  if (entry.voids)
    head.bind(6, *entry.voids);
  else
    head.bind(6);
  head.bind(7, entry.recorded);
  head.bind(8, previous.data(), static_cast<int>(previous.size()));
  head.bind(9, hash.data(), static_cast<int>(hash.size()));
  head.exec();
}

// What comes after the end of a car lowers its profit, or is a slip of the tag: it is said.
void remark_on_late(Recording& recording, const Entry& entry, const std::vector<std::string>& cars) {
  static const std::set<std::string_view> costs{"receipt", "hours", "transfer"};
  if (entry.voids || !costs.contains(entry.kind)) return;
  for (const std::string& car : cars)
    row(recording.book(),
        "SELECT l.turn, coalesce(s.day, e.day) AS under FROM life l JOIN live_entry e USING (entry) LEFT "
        "JOIN "
        "ended s USING (entry) WHERE l.vehicle = :tag AND l.turn IN ('sold', 'finished') AND under < :day",
        {{":tag", car}, {":day", entry.day}}, [&](const Row& end) {
          std::string turn;
          Day day;
          end.into(turn, day);
          recording.remarks().push_back(
              fmt::format("{}: {} was {} on {}; this comes after it, and counts as late", entry.kind, car,
                          turn, day.iso()));
        });
}

}  // namespace

EntryId Draft::record() {
  Book& book = recording_.book();
  Money sum;
  for (const Posting& posting : entry_.postings) sum += posting.amount;
  if (!is_zero(sum)) throw std::logic_error("the entry for " + entry_.kind + " does not add up");
  if (!entry_.voids) expect_purposes();
  // An event that comes to nothing (a free part) is kept as a memorandum, which moves no money.
  if (entry_.postings.size() == 1)
    entry_.postings.push_back({account::overhead, "", Money{}, Quantity{}, {}});

  for (const Mark& mark : recording_.marks) detail("mark", {mark.vehicle, Cell(), mark.says, mark.name});
  write_marks(event, recording_.marks);
  recording_.marks.clear();
  if (recording_.kept_as && recording_.kept_as->kind == entry_.kind)
    event.text("kept_as", kept_text(*recording_.kept_as));
  const bool anew = recording_.corrects.has_value();
  if (recording_.corrects && recording_.corrects->kind == entry_.kind && !entry_.voids) {
    stands_as(recording_.corrects->entry);
    takes_place(recording_.corrects->entry, how::corrects);
    event.number("corrects", std::to_string(recording_.corrects->entry));
    recording_.corrects.reset();
  }

  const EntryId last = last_entry(book);
  entry_.id = last + 1;
  entry_.recorded = recording_.now();
  if (entry_.event.empty()) entry_.event = event.line();
  for (Posting& posting : entry_.postings)
    if (posting.stands == entry_.day) posting.stands.reset();
  expect_readable(entry_);
  if (!anew && is_entered_now(recording_)) {
    expect_names_show(entry_);
    remark_on_late(recording_, entry_, mentioned_);
  }
  if (!entry_.voids) expect_shop_sized(recording_, entry_);
  if (!recording_.notes_named)
    if (const auto note = unnamed_note(book)) detail("noted_before", {note->first, note->second});
  recording_.notes_named = true;
  // Details are hashed table by table, as they are read back.
  std::stable_sort(entry_.details.begin(), entry_.details.end(),
                   [](const Detail& a, const Detail& b) { return a.table < b.table; });
  const Hash previous = hash_of_last(book, last);
  insert_rows(recording_, entry_, previous, sealed(entry_, previous));
  keep_id(recording_, entry_.id, entry_.kind);
  if (settled_) return entry_.id;
  if (recording_.hold) {
    recording_.held.push_back(entry_.id);
    return entry_.id;
  }
  look_after_held(recording_);
  look_after(entry_);
  return entry_.id;
}

std::int64_t account_id(Recording& recording, const std::string& kind, const std::string& name) {
  auto& known = recording.accounts[{kind, name}];
  if (known != 0) return known;
  Book& book = recording.book();
  if (const auto found =
          first<std::int64_t>(book, "SELECT account FROM account WHERE kind = :kind AND name = :name",
                              {{":kind", kind}, {":name", name}}))
    return known = *found;
  auto& insert = book.query("INSERT INTO account (kind, name) VALUES (?, ?)");
  insert.bind(1, kind);
  insert.bind(2, name);
  insert.exec();
  return known = book.database().getLastInsertRowid();
}

Balance balance_of(const Book& book, const std::string& kind, const std::string& name) {
  Balance balance;
  row(book,
      "SELECT b.amount, b.quantity FROM account a JOIN balance b USING (account) WHERE a.kind = :kind AND "
      "a.name = :name",
      {{":kind", kind}, {":name", name}}, [&](const Row& of) { of.into(balance.amount, balance.quantity); });
  return balance;
}

EntryId last_entry(const Book& book) {
  return *first<EntryId>(book, "SELECT coalesce(max(entry), 0) FROM entry", {});
}

std::string counts_on(const std::string& day) {
  return fmt::format(
      // The signs: see schema/0008-live-entry.sql.
      "(+e.voids IS NULL AND +e.day <= {0} AND NOT EXISTS (SELECT 1 FROM entry v WHERE v.voids = e.entry AND "
      "{1} <= {0}))",
      day, taken_back_on("v"));
}

std::optional<Day> closed_until(const Book& book) {
  // A book of an older layout kept it as a setting.
  const auto [closed, set] = *first<std::optional<Day>, std::optional<Day>>(
      book,
      "SELECT (SELECT max(day) FROM entry WHERE kind = 'close'), (SELECT value FROM setting WHERE name = "
      "'closed')",
      {});
  return std::max(closed, set);
}

Day open_day(const Book& book, Day day) {
  const auto closed = closed_until(book);
  return closed && day <= *closed ? closed->plus(1) : day;
}

Cell cell(const std::optional<Day>& day) { return day ? Cell(day->iso()) : Cell(); }

}  // namespace nonrunner::book

#include "book/events/correct.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "book/events/appraisals.h"
#include "book/events/assigned.h"
#include "book/events/post.h"
#include "book/events/void_entry.h"
#include "book/ledger/checks.h"
#include "book/ledger/query.h"
#include "book/questions/alike.h"
#include "book/questions/entry_now.h"
#include "exact/hint.h"
#include "text/made_value.h"
#include "text/toml.h"

namespace nonrunner::book {

namespace {

// A value as it would stand in a file.
Value value_of(const std::string& toml) { return *parse_toml("v = " + toml, "the value").find("v"); }

// Without the id by which it was kept: that stays with the entry that was sent. Which entry it puts right is said anew.
Value event_of(const Book& book, const Entry& entry) {
  Value event = *kept_event(entry.event).find("e");
  std::erase_if(event.entries,
                [](const auto& each) { return each.first == "kept_as" || each.first == "corrects"; });
  if (!is_unnamed(book, entry.id)) return event;
  for (auto& [name, lines] : event.entries)
    if (name == "line") put(lines.items.front(), "unnamed", flag_value());
  return event;
}

// The paper that took the place of the entry; 0: none did.
EntryId paper_of(const Book& book, EntryId id) {
  return *first<EntryId>(book,
                         "SELECT coalesce(max(p.entry), 0) FROM place p JOIN live_entry USING (entry) WHERE "
                         "p.takes = :entry AND "
                         "p.how = 'replaces'",
                         {{":entry", id}});
}

Entry expect_correctable(const Book& book, EntryId id) {
  Entry entry = [&] {
    try {
      return load_entry(book, id);
    } catch (const Refusal& refusal) {
      refuse_as(std::string("correct: ") + refusal.what(), refusal);
    }
  }();
  if (entry.voids)
    throw Refusal(fmt::format("correct: entry {} takes back entry {}; what counts is put right, not that", id,
                              *entry.voids));
  if (entry.kind == "average")
    throw Refusal(
        fmt::format("correct: entry {} follows by itself from what lies on the shelf; put right what it "
                    "follows from",
                    id));
  const auto by = voided_by(book, id);
  if (!by) return entry;
  if (const EntryId paper = paper_of(book, id); paper != 0)
    throw Refusal(
        fmt::format("correct: entry {} gave its place to its paper, entry {}; put that right", id, paper));
  if (const EntryId now = as_it_counts_now(book, id); now != id && !voided_by(book, now))
    throw Refusal(
        fmt::format("correct: entry {} was put right already, as entry {}; put that right", id, now));
  throw hinted<Refusal>(fmt::format("correct: entry {} was taken back already, by entry {}", id, *by),
                        {Action::list_entries, {}});
}

// Entries that count and say that something of these lines went back, or to another car, oldest first.
std::vector<EntryId> hanging_on(const Book& book, EntryId id) {
  std::vector<EntryId> all;
  each<EntryId>(
      book,
      "SELECT DISTINCT g.entry FROM (SELECT entry, line FROM given_back UNION SELECT entry, line FROM "
      "charged) g JOIN live_entry e USING (entry) JOIN line l ON l.line = g.line "
      "WHERE l.entry = :entry AND g.entry <> l.entry ORDER BY g.entry",
      {{":entry", id}}, [&](EntryId entry) { all.push_back(entry); });
  return all;
}

[[noreturn]] void refuse_key(const Entry& entry, const char* what) {
  throw Refusal(
      fmt::format("correct: entry {} is \"{}\", which has no {} to put right", entry.id, entry.kind, what));
}

// Puts the text under the first of the keys that the event has.
void put_first(const Entry& entry, Value& event, const std::vector<const char*>& keys, Value value,
               const char* what) {
  for (const char* key : keys)
    if (event.find(key)) {
      put(event, key, std::move(value));
      return;
    }
  refuse_key(entry, what);
}

// The line of a paper that is meant: the only one, or the one named.
Value& line_meant(const Entry& entry, Value& event, const std::string& id) {
  Value* lines = nullptr;
  for (auto& [name, value] : event.entries)
    if (name == "line") lines = &value;
  if (!lines || lines->items.empty()) refuse_key(entry, "line");
  std::string known;
  for (Value& line : lines->items) {
    const Value* name = line.find("id");
    if (name && name->text == id) return line;
    known += (known.empty() ? "" : ", ") + (name ? name->text : std::string());
  }
  if (id.empty() && lines->items.size() == 1) return lines->items.front();
  throw Refusal(fmt::format("correct: entry {} has the lines {}, {}; say which one", entry.id, known,
                            id.empty() ? "and none is named" : "none of which is \"" + id + "\""));
}

Money money_at(const Value& table, const char* key, const Currency& currency) {
  const Value* value = table.find(key);
  return value ? Money::parse(value->text, currency) : Money{};
}

// Another amount of a line: the total and what its one purse paid go with it.
void put_line_amount(const Recording& recording, const Entry& entry, Value& event, Value& line,
                     const std::string& amount) {
  const Currency& currency = recording.currency();
  const Money now = Money::parse(amount, currency);
  Money before = money_at(line, "amount", currency);
  if (const Value* unit = line.find("unit")) {
    const Value* pieces = line.find("qty");
    before =
        Price::parse(unit->text, currency).times(pieces ? Quantity::parse(pieces->text) : Quantity::of(1000));
  }
  // A coupon is a line below nothing, and stays one.
  const Value* itemised = event.find("itemised");
  const bool quick = itemised && !itemised->flag;
  if (before > Money{} && (is_negative(now) || (quick && is_zero(now))))
    expect_something_paid(now, "correct", currency);
  drop(line, "unit");
  put(line, "amount", value_of(now.plain(currency)));
  const Money more = now - before;
  put(event, "total", value_of((money_at(event, "total", currency) + more).plain(currency)));
  for (auto& [name, paid] : event.entries) {
    if (name != "paid" || paid.kind != Value::Kind::table || paid.entries.empty()) continue;
    if (paid.entries.size() > 1)
      throw Refusal(
          fmt::format("correct: entry {} was paid from {} purses, and another amount does not say from "
                      "which; take it back and enter it anew",
                      entry.id, paid.entries.size()));
    const Money was = Money::parse(paid.entries.front().second.text, currency);
    paid.entries.front().second = value_of((was + more).plain(currency));
  }
}

void put_purse(const Entry& entry, Value& event, const std::string& purse) {
  for (auto& [name, paid] : event.entries)
    if (name == "paid" && paid.kind == Value::Kind::table) {
      if (paid.entries.size() != 1)
        throw Refusal(
            fmt::format("correct: entry {} was paid from {} purses, expected one to put another in its "
                        "place",
                        entry.id, paid.entries.size()));
      paid.entries.front().first = purse;
      return;
    }
  put_first(entry, event, {"purse"}, value_of(toml_text(purse)), "purse");
}

void put_receipt(const Recording& recording, const Entry& entry, Value& event, const Correction& correction) {
  const bool of_line = correction.vehicle || correction.what || correction.amount || correction.under ||
                       !correction.paper_line.empty();
  if (!of_line) return;
  Value& line = line_meant(entry, event, correction.paper_line);
  if (correction.vehicle) {
    drop(line, "share");
    drop(line, "for");  // of the other car's budget
    put(line, "to", value_of(toml_text(*correction.vehicle)));
  }
  if (correction.what) {
    put(line, "what", value_of(toml_text(*correction.what)));
    drop(line, "unnamed");
  }
  if (correction.under) put(line, "for", value_of(toml_text(*correction.under)));
  if (!correction.amount) return;
  put_line_amount(recording, entry, event, line, *correction.amount);
  if (const Value* itemised = event.find("itemised"); itemised && !itemised->flag)
    expect_something_paid(money_at(event, "total", recording.currency()), "correct", recording.currency());
}

// A commission that is a share goes along with the price.
void share_anew(Value& sale) {
  const Value* rate = sale.find("commission_rate");
  if (!rate) return;
  Value share = *rate;
  drop(sale, "commission_rate");
  put(sale, "commission", std::move(share));
  for (auto& [name, costs] : sale.entries)
    if (name == "costs")  // below one unit of money it stands there, see sell.cpp
      std::erase_if(costs.items, [](const Value& cost) {
        const Value* named = cost.find("name");
        return named && named->text == "commission";
      });
}

Value corrected_event(const Recording& recording, const Entry& entry, const Correction& correction) {
  Value event = event_of(recording.book(), entry);
  if (correction.day) put(event, "date", value_of(correction.day->iso()));
  if (correction.purse) put_purse(entry, event, *correction.purse);
  if (entry.kind == "receipt") {
    put_receipt(recording, entry, event, correction);
    return event;
  }
  if (correction.vehicle) {
    // What a move goes to is a purse.
    const char* const car = entry.kind == "transfer" ? "to" : "vehicle";
    put_first(entry, event, {car}, value_of(toml_text(*correction.vehicle)), "car");
    drop(event, "for");
  }
  if (correction.what && entry.kind == "transfer") drop(event, "line");  // that of what it is called now
  if (correction.what)
    put_first(entry, event, {"what", "operation", "text", "why", "name"},
              value_of(toml_text(*correction.what)), "words");
  if (correction.under) put(event, "for", value_of(toml_text(*correction.under)));
  if (correction.amount && entry.kind == "sell") share_anew(event);
  if (correction.amount)
    put_first(entry, event, {"amount", "price", "own", "paid", "still_brings", "distance", "qty", "goods"},
              value_of(*correction.amount), "amount");
  return event;
}

EntryId record_value(Recording& recording, const Value& event, const std::filesystem::path& beside) {
  const Table table(event, "the entry", "the event");
  try {
    return record_event(recording, table, beside, {});
  } catch (const Refusal& refusal) {
    // It stands in no file.
    const std::string what = refusal.what(), place = "the entry: ";
    const auto at = what.find(": ");
    refuse_as(what.starts_with("the entry") && at != std::string::npos ? what.substr(at + 2) : what, refusal);
  }
}

// The appraisal of a purchase is kept once more with the one that stands in its place, and after it what was kept
// later on that day, which stays the later one.
void appraisals_follow(Recording& recording, EntryId from, EntryId to) {
  const Book& book = recording.book();
  std::vector<std::string> bought;
  each<std::string>(book, "SELECT DISTINCT vehicle FROM appraisal WHERE entry = :entry", {{":entry", from}},
                    [&](const std::string& tag) { bought.push_back(tag); });
  for (const std::string& tag : bought) {
    // The appraisal in force is that of the day that was said, whenever it was put right.
    const Day day = life_of(book, tag).bought_said;
    bool is_after = false;
    for (const KeptAppraisal& each : appraisals_of(book, tag)) {
      const bool is_its_own = each.bought_by == from;
      is_after = is_after || is_its_own;
      if (is_its_own || (is_after && each.bought_by == 0 && each.day == day))
        keep_appraisal(recording, tag, day, is_its_own ? to : 0,
                       {each.job, each.settled.value_or(""), each.figures});
    }
  }
}

// What names an entry by its number follows it.
void follow(Recording& recording, EntryId from, EntryId to) {
  const Book& book = recording.book();
  std::vector<std::pair<std::string, std::string>> headings;
  each<std::string, std::string>(book, "SELECT vehicle, heading FROM assigned WHERE what = :what",
                                 {{":what", "entry " + std::to_string(from)}},
                                 [&](const std::string& vehicle, const std::string& heading) {
                                   headings.emplace_back(vehicle, heading);
                                 });
  for (const auto& [vehicle, heading] : headings) assign(recording, {vehicle, "", "", to, heading});
  appraisals_follow(recording, from, to);
}

// Where the day lies in a closed period, both halves bear the first open one by themselves.
void take_back(Recording& recording, const Entry& entry) {
  Void request;
  request.day = entry.day;
  request.entry = entry.id;
  request.why = to_put_right;
  request.makes_way = true;
  record(recording, request);
}

EntryId enter(Recording& recording, const Entry& entry, Value event) {
  if (entry.kind == "receipt") {  // a quick line gave its place already
    drop(event, "replaces");
    drop(event, "later");
  }
  put(event, "corrects", value_of(std::to_string(entry.id)));
  const EntryId made = record_value(recording, event, recording.book().attachments().parent_path());
  follow(recording, entry.id, made);
  return made;
}

}  // namespace

bool is_voided(const Book& book, EntryId id) { return voided_by(book, id).has_value(); }

EntryId make_again(Recording& recording, const Entry& entry) {
  // It was in the book: as it stood it stands again.
  const std::string typed_by = std::exchange(recording.typed_by, "");
  const bool wary = std::exchange(recording.wary, false),
             strict = std::exchange(recording.strict_words, false);
  const EntryId made = enter(recording, entry, event_of(recording.book(), entry));
  recording.typed_by = typed_by;
  recording.wary = wary;
  recording.strict_words = strict;
  return made;
}

namespace {
// Of a closed period both count from the same first open day: the days that are said have to agree all the same.
void expect_in_order(const Book& book, EntryId corrected, EntryId made) {
  const auto tag =
      first<std::string>(book, "SELECT vehicle FROM life WHERE entry = :entry", {{":entry", made}});
  const Life life = tag ? life_of(book, *tag) : Life{};
  if (life.bought != 0 && life.ended != 0 && life.ended_said < life.bought_said)
    throw Refusal(fmt::format("correct: with entry {} so, {} was {} on {}, before its purchase on {}",
                              corrected, *tag, shown(life.state), life.ended_said.iso(),
                              life.bought_said.iso()));
}

Corrected put_right(Recording& recording, const Correction& correction) {
  const Book& book = recording.book();
  const Entry entry = expect_correctable(book, correction.entry);
  if (!correction.vehicle && !correction.purse && !correction.what && !correction.amount && !correction.day &&
      !correction.under)
    throw Refusal(
        fmt::format("correct: nothing of entry {} is changed, expected another car, amount, day, purse, "
                    "words or line of the budget",
                    entry.id));
  if (correction.day) expect_come(recording, "correct", *correction.day);
  const Value event = corrected_event(recording, entry, correction);
  std::vector<Entry> hanging;
  for (const EntryId id : hanging_on(book, entry.id)) {
    hanging.push_back(load_entry(book, id));
    if (hanging.back().kind == "receipt")
      throw Refusal(
          fmt::format("correct: on the paper of entry {} something of entry {} went back; take that back "
                      "first",
                      id, entry.id));
  }
  for (auto each = hanging.rbegin(); each != hanging.rend(); ++each) take_back(recording, *each);
  take_back(recording, entry);
  Corrected corrected;
  corrected.entry = enter(recording, entry, event);
  expect_in_order(book, entry.id, corrected.entry);
  const Day said = event.find("date")->day;
  if (entry.kind == "hours" && own_hours_on(book, said) > most_hours)
    throw Refusal(
        fmt::format("correct: with entry {} so, {} has more than 24 own hours, expected at most that on one "
                    "day",
                    entry.id, said.iso()));
  for (const Entry& each : hanging) {
    Value again = event_of(book, each);
    drop(again, "deposit");  // of the line as it is now
    drop(again, "out_of");
    corrected.carried.push_back(enter(recording, each, std::move(again)));
  }
  if (const Day day = load_entry(book, corrected.entry).day; day != event.find("date")->day)
    corrected.moved_to = day;
  return corrected;
}
}  // namespace

Corrected correct(Recording& recording, const Correction& correction) {
  return as_typed("correct", [&] { return put_right(recording, correction); });
}

}  // namespace nonrunner::book

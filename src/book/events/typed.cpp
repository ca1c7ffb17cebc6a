#include "book/events/typed.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/clock.h"
#include "book/events/correct.h"
#include "book/events/void_entry.h"
#include "book/ledger/day_checks.h"
#include "book/ledger/query.h"
#include "book/questions/entry_now.h"
#include "exact/ends.h"
#include "exact/hint.h"

namespace nonrunner::book {

namespace {

struct Typed {
  std::int64_t id = 0;
  EntryId first = 0, last = 0;
  std::string at;
};

std::optional<Typed> last_typed(const Book& book, const std::string& who) {
  const auto found = first<std::int64_t, EntryId, EntryId, std::string>(
      book,
      "SELECT typed, first, last, at FROM typed WHERE who = :who AND undone = 0 ORDER BY typed DESC LIMIT 1",
      {{":who", who}});
  if (!found) return std::nullopt;
  const auto& [id, from, to, at] = *found;
  return Typed{id, from, to, at};
}

bool within_a_day(const std::string& now, const Typed& typed) {
  return hours_of(Clock{"", "", "", typed.at}, now) <= Hours::of(24'000);
}

// What stands for one of its entries: itself, or what was made again of it when the correction or the void of it was undone.
// Absent where a command took it back that still holds, whoever typed it.
std::optional<EntryId> stands_for(const Book& book, EntryId entry) {
  while (const auto by = voided_by(book, entry)) {
    const bool holds = *first<bool>(
        book, "SELECT EXISTS (SELECT 1 FROM typed WHERE undone = 0 AND :reversal BETWEEN first AND last)",
        {{":reversal", *by}});
    const auto next = holds ? std::nullopt : put_in_its_place(book, entry);
    if (!next) return std::nullopt;
    entry = *next;
  }
  return entry;
}

void expect_untouched(const Book& book, const Typed& typed) {
  each<EntryId, EntryId>(
      book,
      "SELECT voids, entry FROM entry WHERE voids BETWEEN :first AND :last AND entry > :last ORDER BY entry",
      {{":first", typed.first}, {":last", typed.last}}, [&](EntryId entry, EntryId reversal) {
        if (!stands_for(book, entry))
          throw Refusal(fmt::format(
              "undo: entry {}, typed last, was taken back since (entry {}); what is still wrong: void "
              "it by its number",
              entry, reversal));
      });
}

// The entries of it that would go, in their order: what counts, and does not come by itself.
std::vector<EntryId> entries_of(const Book& book, const Typed& typed) {
  std::vector<EntryId> all;
  for (EntryId id = typed.first; id <= typed.last; ++id) {
    const Entry entry = load_entry(book, id);
    if (entry.voids || entry.kind == "average") continue;
    const auto by = voided_by(book, id);
    if (by && *by <= typed.last) continue;
    if (const auto now = stands_for(book, id)) all.push_back(*now);
  }
  return all;
}

// The entries of before that it took back, in their order.
std::vector<EntryId> taken_back_by(const Book& book, const Typed& typed) {
  std::vector<EntryId> all;
  each<EntryId>(
      book, "SELECT voids FROM entry WHERE entry BETWEEN :first AND :last AND voids < :first ORDER BY voids",
      {{":first", typed.first}, {":last", typed.last}}, [&](EntryId entry) { all.push_back(entry); });
  return all;
}

}  // namespace

void remember_typed(Recording& recording, EntryId before) {
  const EntryId last = last_entry(recording.book());
  if (last <= before) return;
  change(recording.book(), "INSERT INTO typed (first, last, who, at) VALUES (:first, :last, :who, :at)",
         {{":first", before + 1}, {":last", last}, {":who", recording.typed_by}, {":at", recording.now()}});
}

namespace {

Undone undo(Recording& recording) {
  Book& book = recording.book();
  const auto typed = last_typed(book, recording.typed_by);
  if (!typed || !within_a_day(recording.now(), *typed))
    throw Refusal("undo: nothing was typed here in the last 24 hours; an older entry: void it by its number");
  expect_untouched(book, *typed);
  Undone undone;
  // What the command took back is made again at the end, and carries what rests on what took its place.
  const std::vector<EntryId> again = taken_back_by(book, *typed);
  undone.taken_back = entries_of(book, *typed);
  for (auto id = undone.taken_back.rbegin(); id != undone.taken_back.rend(); ++id) {
    Void request;
    request.day = load_entry(book, *id).day;
    request.entry = *id;
    request.why = "undone";
    request.makes_way = !again.empty();
    record(recording, request);
  }
  for (const EntryId id : again) undone.made_again.push_back(make_again(recording, load_entry(book, id)));
  look_after_held(recording);
  change(book, "UPDATE typed SET undone = 1 WHERE typed = :typed", {{":typed", typed->id}});
  return undone;
}

}  // namespace

Undone undo_typed(Recording& recording) {
  return as_typed("undo", [&] { return undo(recording); });
}

void expect_desk_as_it_was(const Recording& recording) {
  const auto typed = last_typed(recording.book(), recording.typed_by);
  if (!typed) return;
  const auto changed =
      first<std::string>(recording.book(),
                         "SELECT what FROM desk_note WHERE recorded > :at AND (what LIKE 'setting %' OR what "
                         "LIKE 'comparable %') ORDER BY "
                         "note DESC LIMIT 1",
                         {{":at", typed->at}});
  if (!changed) return;
  throw hinted<Refusal>(
      fmt::format("undo: the {} was changed after entry {} was typed, and is no entry: say it anew; to take "
                  "that entry back all the same, void it",
                  *changed, typed->last),
      {Action::void_entry, {{"entry", std::to_string(typed->last)}}});
}

Undone to_undo(const Book& book, const std::string& typed_by, const std::string& now) {
  Undone all;
  const auto typed = last_typed(book, typed_by);
  if (!typed || !within_a_day(now, *typed)) return all;
  all.made_again = taken_back_by(book, *typed);
  all.taken_back = entries_of(book, *typed);
  return all;
}

bool others_typed_since(const Book& book, const std::string& typed_by) {
  const auto typed = last_typed(book, typed_by);
  return typed &&
         first<std::int64_t>(
             book, "SELECT typed FROM typed WHERE typed > :typed AND who <> :who AND undone = 0 LIMIT 1",
             {{":typed", typed->id}, {":who", typed_by}});
}

}  // namespace nonrunner::book

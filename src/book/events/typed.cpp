#include "book/events/typed.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/clock.h"
#include "book/events/correct.h"
#include "book/events/void_entry.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace {

struct Typed {
  std::int64_t id = 0;
  EntryId first = 0, last = 0;
  std::string at;
};

std::optional<Typed> last_typed(const Recording& recording) {
  auto& find = recording.book().query(
      "SELECT typed, first, last, at FROM typed WHERE who = ? AND undone = 0 ORDER BY typed DESC LIMIT 1");
  find.bind(1, recording.typed_by);
  std::optional<Typed> typed;
  if (find.executeStep())
    typed = Typed{find.getColumn(0).getInt64(), find.getColumn(1).getInt64(), find.getColumn(2).getInt64(),
                  find.getColumn(3).getString()};
  find.tryReset();
  return typed;
}

bool within_a_day(const Recording& recording, const Typed& typed) {
  return hours_of(Clock{"", "", "", typed.at}, recording.now()) <= Hours::of(24'000);
}

void expect_untouched(const Book& book, const Typed& typed) {
  auto& later = book.query(
      "SELECT voids, entry FROM entry WHERE voids BETWEEN ?1 AND ?2 AND entry > ?2 ORDER BY entry LIMIT 1");
  later.bind(1, typed.first);
  later.bind(2, typed.last);
  const bool touched = later.executeStep();
  const EntryId entry = touched ? later.getColumn(0).getInt64() : 0;
  const EntryId by = touched ? later.getColumn(1).getInt64() : 0;
  later.tryReset();
  if (touched)
    throw Refusal(
        fmt::format("undo: entry {}, typed last, was taken back since (entry {}); what is still wrong: void "
                    "it by its number",
                    entry, by));
}

}  // namespace

void remember_typed(Recording& recording, EntryId before) {
  const EntryId last = last_entry(recording.book());
  if (last <= before) return;
  auto& insert = recording.book().query("INSERT INTO typed (first, last, who, at) VALUES (?, ?, ?, ?)");
  insert.bind(1, before + 1);
  insert.bind(2, last);
  insert.bind(3, recording.typed_by);
  insert.bind(4, recording.now());
  insert.exec();
}

Undone undo_typed(Recording& recording) {
  Book& book = recording.book();
  const auto typed = last_typed(recording);
  if (!typed || !within_a_day(recording, *typed))
    throw Refusal("undo: nothing was typed here in the last 24 hours; an older entry: void it by its number");
  expect_untouched(book, *typed);
  Undone undone;
  std::vector<EntryId> again;
  for (EntryId id = typed->last; id >= typed->first; --id) {
    const Entry entry = load_entry(book, id);
    if (entry.voids) {
      if (*entry.voids < typed->first) again.push_back(*entry.voids);
      continue;
    }
    if (entry.kind == "average" || is_voided(book, id)) continue;  // comes by itself; within the same command
    Void request;
    request.day = entry.day;
    request.entry = id;
    request.why = "undone";
    record(recording, request);
    undone.taken_back.push_back(id);
  }
  std::sort(undone.taken_back.begin(), undone.taken_back.end());
  std::sort(again.begin(), again.end());
  for (const EntryId id : again) undone.made_again.push_back(make_again(recording, load_entry(book, id)));
  auto& mark = book.query("UPDATE typed SET undone = 1 WHERE typed = ?");
  mark.bind(1, typed->id);
  mark.exec();
  return undone;
}

}  // namespace nonrunner::book

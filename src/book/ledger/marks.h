// What an entry says of its car's budget, beside what it moves: under which line its money or hours stand, and
// which lines it closes or opens again. A line is known by its name; the numbers on screens are shorthand.
//
// Any event may carry marks: they are handed to the recording and go into the next entry, sealed with it, and
// into its event's text (`for`, `done`, `more`, `still_to_do`), so that book -> events -> book holds. A void of
// the entry takes them back.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"
#include "book/ledger/holds.h"
#include "text/table.h"

namespace nonrunner::book {

namespace says {
inline constexpr const char* under = "for";  // an empty name: under none
inline constexpr const char* done = "done";
inline constexpr const char* not_needed = "not needed";
inline constexpr const char* open = "open";
inline constexpr const char* more = "more";    // more is to come under this line
inline constexpr const char* ready = "ready";  // the car: every line is done; no name
}  // namespace says

// How "under none" is written where a name is expected.
inline constexpr const char* under_none = "none";

// The keys of an event by which it says them, for the reference.
struct MarkKey {
  const char* key;
  Holds holds;
  const char *kind, *means;
};
const std::vector<MarkKey>& mark_keys();

struct DatedMark {
  Day day;
  EntryId entry = 0;
  std::optional<std::int64_t> line;  // of a receipt, by the book's number
  std::string says, name;
  bool with_hours = false;  // said with an entry of hours
};
// Of entries that count, by day, then entry. `on`: as it stood at the end of that day.
std::vector<DatedMark> marks_of(const Book&, const std::string& vehicle, std::optional<Day> on = {});

// Takes the keys of marks out of an event's table and hands them to the recording. Throws Refusal where one is
// of the wrong type.
Value without_marks(Recording&, const Table& event);
// The marks of an entry as keys of its event; those of receipt lines stand with their lines.
void write_marks(EventText&, const std::vector<Mark>&);

}  // namespace nonrunner::book

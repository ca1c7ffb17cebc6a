// The desk of the shop under seal: settings, kept appraisals, comparables, headings and files taken in may
// change, and each change is noted (schema/0017-desk-notes.sql) in a chain of hashes that is knotted into the
// journal.
//
// A thing on the desk has a name ("setting hour", "comparable 12") and a value, one line that says all of it.
// The last note of each thing says what it has to be now; `check` compares.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

using Desk = std::map<std::string, std::string>;
Desk desk_of(const Book&);  // as it lies there now
// What a thing is now, in the words of its note; nothing where it is not there.
std::optional<std::string> thing_on_desk(const Book&, const std::string& what);

// To be called after each change of the thing, within the recording of the change.
void note_desk(Recording&, const std::string& what);
// In a book that was never noted on (new, or of an older version): all that lies there, as it is found.
void note_desk_as_found(Recording&);
// The last note, where the journal does not name it yet: number and seal.
std::optional<std::pair<std::int64_t, std::string>> unnamed_note(const Book&);
// What does not fit together, one line each.
std::vector<std::string> desk_findings(const Book&);
struct DeskHead {
  std::int64_t note = 0;
  std::string seal;  // hexadecimal; empty where there is no note
};
DeskHead desk_head(const Book&);

}  // namespace nonrunner::book

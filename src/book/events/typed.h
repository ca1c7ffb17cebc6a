// What was typed last, and taking it back whole: every entry of one command, both halves of a correction; a paper
// gives its place back to the quick line.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

// Remembers the entries after `before` as one thing that `recording.typed_by` typed; nothing where there are none.
void remember_typed(Recording&, EntryId before);

struct Undone {
  std::vector<EntryId> taken_back;  // the entries that were typed and count no more, in their order
  std::vector<EntryId> made_again;  // those that they had taken back, as new entries
  bool operator==(const Undone&) const = default;
};
// Takes back what this login typed last, within 24 hours. Throws Refusal where there is nothing, or where a part
// of it was taken back since, or something later rests on it.
Undone undo_typed(Recording&);
// Refuses where something of the desk (a setting, a comparable) was changed after that, which
// undoing takes no part of: whoever asks for the last thing may mean it. For a front end that does not show what would go.
void expect_desk_as_it_was(const Recording&);

// What `undo_typed` would take back and make again (by its number now), in their order; empty where there is nothing.
Undone to_undo(const Book&, const std::string& typed_by, const std::string& now);
// Whether somebody else, or another device, has typed something after that.
bool others_typed_since(const Book&, const std::string& typed_by);

}  // namespace nonrunner::book

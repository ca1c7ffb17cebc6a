// Under which day an amount stands, where that is another than the day from which its entry counts: what a full paper brings
// in the place of a quick line of a closed period, and what puts right an entry of one. It counts from the first open day; as
// far as what it takes the place of went, it stands where that stood, so that a cost from before a sale stays one. The rest
// stands under its own day.
//
// An event says which entry it puts right as `corrects = ENTRY`: sealed with its text, so that book -> events -> book holds.
#pragma once
#include <functional>
#include <map>
#include <string>
#include <utility>

#include "book/ledger/entry.h"
#include "text/table.h"

namespace nonrunner::book {

// Takes `corrects` out of an event's table and hands it to the recording, for the next entry of that kind. `numbered`: the
// book's number of an entry that a file names by its own. Throws Refusal where it is no entry of that kind that was taken back.
Value without_corrects(Recording&, const Table& event, const std::function<EntryId(EntryId)>& numbered);

// Whether what takes the place of the entry has to stand where it stood: it lies in a closed period, or puts right one that does.
bool stands_for_others(const Book&, const Entry&);

}  // namespace nonrunner::book

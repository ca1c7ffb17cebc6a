// Under which day a car ended for its money, of sales and write-offs that were put right before the book kept it
// (schema/0028-ended.sql): worked out from what is recorded when the book is brought up to date, as it is for an entry of today.
// Their seals do not cover these rows, so `check` works them out again.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

// Adds the rows that are missing, and gives a line for each figure that is another one by them. To be called within the
// transaction that brings the layout about, after add_older_places().
std::vector<std::string> add_older_endings(Book&);
// Whether the row kept beside an entry of before is the one that follows from what is recorded; true of any other.
bool older_endings_agree(const Book&, const Entry&);

}  // namespace nonrunner::book

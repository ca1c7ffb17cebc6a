// What entries just made from a file stand under no line of their car's budget though they are close to one: a file
// says the place itself or none, so that it is asked about, or told, once it is recorded.
#pragma once
#include <string>
#include <vector>

#include "answers/placing.h"
#include "book/ledger/entry.h"

namespace nonrunner::answers {

struct Unplaced {
  std::string tag, words;
  std::string paper_line;   // of a receipt: the id of its line
  book::EntryId entry = 0;  // of hours
  Placing placing;          // what it is close to
};
// Of the entries from `first` to `last` that count, in their order; of a long file only the first
// `most_entries_looked_at`.
inline constexpr int most_entries_looked_at = 500;
std::vector<Unplaced> unplaced(const book::Book&, book::EntryId first, book::EntryId last);

Question question_of(const Unplaced&);
// Puts it under the line that it is close to.
void place(book::Recording&, const Unplaced&);

}  // namespace nonrunner::answers

// Money from one purse to another: one entry.
//
//   to + amount   from - amount
//
// Refused, the first that applies:  1 the amount is not above 0   2 both purses are the same
#pragma once
#include "book/ledger/entry.h"
#include "text/table.h"

namespace nonrunner::book {

struct Move {
  Day day;
  std::string from, to;
  Money amount;
};
Move read_move(const Table&, const Currency&);
EntryId record(Recording&, const Move&);

}  // namespace nonrunner::book

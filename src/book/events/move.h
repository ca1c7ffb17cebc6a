// Money from one purse to another: one entry.
//
//   to + amount   from - amount
//
// Refused, the first that applies:  1 the amount is not above 0   2 both purses are the same
//   3 (typed) the purse that it comes out of was never there
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Move {
  Day day;
  std::string from, to;
  Money amount;
};
void fields(Move&, Fields&);
EntryId record(Recording&, const Move&);

}  // namespace nonrunner::book

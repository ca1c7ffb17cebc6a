// A car in pieces is finished: a memorandum. What is left of its cost is its loss from that day on
// (position.h).
//
// Refused, the first that applies:
//   1 no vehicle has the tag   2 it is not owned, or sold or finished already   3 (entered now) nothing says that
//   it went to pieces, and less than half of its cost was recovered (common practice, no source)   4 a clock still
//   runs on it   5 the day lies before the purchase
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct WriteOff {
  Day day;
  std::string vehicle;
};
void fields(WriteOff&, Fields&);
EntryId record(Recording&, const WriteOff&);

}  // namespace nonrunner::book

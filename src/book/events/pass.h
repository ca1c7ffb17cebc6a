// A car looked at and left: a memorandum. What looking cost is the overhead of looking from that day on
// (position.h).
//
// Refused, the first that applies:  1 the tag is not well formed   2 it is owned, sold or finished   3 it was passed already
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Pass {
  Day day;
  std::string vehicle;
  std::string why;
};
void fields(Pass&, Fields&);
EntryId record(Recording&, const Pass&);

}  // namespace nonrunner::book

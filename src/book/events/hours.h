// Hours worked on a vehicle, for one operation. Own hours move no money: the entry is a memorandum. Paid hours are cost:
//
//   vehicle cost + paid x rate   purse - paid x rate      (rounded half away from zero)
//
// Refused, the first that applies:
//   1 the tag is not well formed   2 neither own nor paid hours, or a number below 0   3 paid hours without a rate or a purse
//   4 the operation is empty
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Labour {
  Day day;
  std::string vehicle;
  std::string operation;
  Hours own, paid;
  Price rate;          // for one paid hour
  std::string purse;   // pays the paid hours
  std::string who;     // was paid; empty: not said
  bool again = false;  // others, though the same stand there already
};
void fields(Labour&, Fields&);
EntryId record(Recording&, const Labour&);

}  // namespace nonrunner::book

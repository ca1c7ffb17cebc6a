// The owner's own money put into the shop or taken out of it: one entry.
//
//   owner in:   purse + amount   owner - amount          owner out: the other way round
//
// Refused, the first that applies:  1 the amount is not above 0
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct OwnerMoney {
  bool in = true;
  Day day;
  std::string purse;
  Money amount;
  bool again = false;  // another one, though the same stands there already
};
void fields(OwnerMoney&, Fields&);
EntryId record(Recording&, const OwnerMoney&);

}  // namespace nonrunner::book

// The owner's own money put into the shop or taken out of it: one entry.
//
//   owner in:   purse + amount   owner - amount          owner out: the other way round
//
// Refused, the first that applies:  1 the amount is not above 0
#pragma once
#include "book/ledger/entry.h"
#include "text/table.h"

namespace nonrunner::book {

struct OwnerMoney {
  bool in = true;
  Day day;
  std::string purse;
  Money amount;
};
OwnerMoney read_owner(const Table&, const Currency&, bool in);
EntryId record(Recording&, const OwnerMoney&);

}  // namespace nonrunner::book

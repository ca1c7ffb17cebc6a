// A deposit on a borrowed tool, and its coming back: one entry each.
//
//   tool deposit:        tool deposit + amount   purse - amount
//   tool deposit back:   purse + amount   overhead + kept   tool deposit - (amount + kept)
//
// Refused, the first that applies:  1 it does not say what
//   2 kept is below 0, the amount is not above 0 (back: below 0, or 0 and nothing is kept)
//   3 (back) more than is out for that tool; the nearest is named    4 money but no purse
//   5 (entered now) the last day for it lies before its own
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct ToolDeposit {
  bool back = false;
  Day day;
  std::string supplier, what;
  Money amount;
  std::string purse;  // may be empty where no money comes back
  std::optional<Day> back_by;
  Money kept;  // what of the deposit never comes back: overhead, as no tool is a car's cost by itself
};
void fields(ToolDeposit&, Fields&);
EntryId record(Recording&, const ToolDeposit&);

}  // namespace nonrunner::book

// Money paid for what was owed: a supplier's paper that was on account, or sales tax that was collected; one entry each.
//
//   pay:             payable of the supplier + amount   purse - amount
//   sales tax paid:  sales tax + amount                 purse - amount
//
// Refused, the first that applies:  1 the amount is not above 0   2 more than is owed
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Pay {
  Day day;
  bool sales_tax = false;  // of what was collected; else what was on account
  std::string supplier;
  Money amount;
  std::string purse;
};
void fields(Pay&, Fields&);
EntryId record(Recording&, const Pay&);

}  // namespace nonrunner::book

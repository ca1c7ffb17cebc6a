// Money paid for what was owed: a supplier's paper that was on account, or sales tax that was collected; one entry each.
//
//   pay:             payable of the supplier + amount   purse - amount
//   sales tax paid:  sales tax + amount                 purse - amount
//
// Refused, the first that applies:  1 the amount is not above 0   2 more than is owed
#pragma once
#include "book/ledger/entry.h"
#include "text/table.h"

namespace nonrunner::book {

struct Pay {
  Day day;
  std::string supplier;  // empty: the sales tax
  Money amount;
  std::string purse;
};
Pay read_pay(const Table&, const Currency&, bool sales_tax);
EntryId record(Recording&, const Pay&);

}  // namespace nonrunner::book

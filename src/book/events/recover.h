// Parts sold off, scrap; and money given back to the buyer of a part: one entry each.
//
//   recover:       purse + amount    recovered - amount, as far as the car still carries a cost; what goes beyond is
//                                    recovered income; after the sale all of it is
//   recover back:  purse - amount    recovered income + amount, as far as there was any; the rest recovered; after the sale
//                                    all of it is less recovered income
//
// Refused, the first that applies:
//   1 no vehicle has the tag   2 the amount is not above 0   3 (back) more than was recovered
//   4 it does not say what
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Recover {
  bool back = false;
  Day day;
  std::string vehicle, what;
  Money amount;
  std::string purse;
};
void fields(Recover&, Fields&);
EntryId record(Recording&, const Recover&);

// All that was recovered from a car and not given back, before and after its sale.
Money recovered_in_all(const Book&, const std::string& vehicle);

}  // namespace nonrunner::book

// A cost of selling on its own: an advert paid before the sale, a bank's charge after it; one entry.
//
//   selling cost + amount   purse - amount
//
// Refused, the first that applies:  1 no vehicle has the tag, or (entered now) it was never bought
//   2 the amount is not above 0   3 it does not say what
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct SellingCost {
  Day day;
  std::string vehicle, what;
  Money amount;
  std::string purse;
};
void fields(SellingCost&, Fields&);
EntryId record(Recording&, const SellingCost&);

}  // namespace nonrunner::book

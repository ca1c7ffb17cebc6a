// A buyer's deposit before a sale: taken, kept when the buyer forfeits it, or given back; one entry each.
//
//   buyer deposit:  purse + amount            buyer deposit - amount
//   deposit kept:   buyer deposit + amount    deposit kept - amount       (income of the car, not sale price)
//   deposit back:   buyer deposit + amount    purse - amount
//
// Refused, the first that applies:
//   1 no vehicle has the tag   2 (entered now) the car was sold or finished by that day, or never bought
//   3 the amount is not above 0   4 (kept, back) more than is held for that car
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct BuyerDeposit {
  enum class What { taken, kept, back };
  What what = What::taken;
  Day day;
  std::string vehicle;
  Money amount;
  std::string purse;   // not for kept
  bool again = false;  // another one, though the same stands there already
};
void fields(BuyerDeposit&, Fields&);
EntryId record(Recording&, const BuyerDeposit&);

}  // namespace nonrunner::book

// The price that a car is advertised at from a day on: a memorandum, which moves no money.
//
// Refused, the first that applies:  1 no vehicle has the tag   2 the price is not above 0
//   3 it was sold or finished   4 it was not bought   5 it is in pieces   6 the day lies before the purchase
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Advertised {
  Day day;
  std::string vehicle;
  Money price;
};
void fields(Advertised&, Fields&);
EntryId record(Recording&, const Advertised&);

}  // namespace nonrunner::book

// Parts sold off, scrap; and money given back to the buyer of a part: one entry each.
//
//   recover:       purse + amount    recovered - amount
//   recover back:  purse - amount    recovered + amount
//
// How far it lowers the car's cost and how far it is income is read by days (position.h).
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
  bool again = false;  // another one, though the same stands there already
};
void fields(Recover&, Fields&);
EntryId record(Recording&, const Recover&);

// All that was recovered from a car and not given back, before and after its sale.
Money recovered_in_all(const Book&, const std::string& vehicle);

}  // namespace nonrunner::book

// Distance driven for a car, or for several by weight, with its purpose: a memorandum; the yearly distance goes into the
// year's report.
//
// Refused, the first that applies:  1 neither or both of vehicle and share   2 a distance not above 0   3 the purpose is empty
//   4 a tag is not well formed
#pragma once
#include "book/ledger/line.h"

namespace nonrunner::book {

class Fields;

struct Trip {
  Day day;
  std::vector<Share> shares;  // one car: one share
  Distance distance;
  std::string why;
  std::string from, to;  // empty: not said
  bool again = false;    // another one, though the same stands there already
};
void fields(Trip&, Fields&);
EntryId record(Recording&, const Trip&);

}  // namespace nonrunner::book

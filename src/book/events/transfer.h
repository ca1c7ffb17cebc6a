// A part moved from one car to another at cost, or an amount of tools charged to a car by hand (`from` is
// "tools"), or tools kept as an asset becoming a cost of the shop (from "tools" to "overhead"): one entry.
//
//   vehicle cost of `to` + amount   vehicle cost of `from`, or tools, - amount
//   (a part whose receipt line is said takes the deposit on its core with it: what is short of that when the core goes
//   back becomes a cost of the car that has the part)
//   (of the tools those kept as an asset first, as far as they reach; the tool's line is kept beside it, so
//   that a tool that goes back goes out of the car)
//
// Refused, the first that applies:
//   1 no vehicle has the tag `from`   2 both are the same   3 the amount is not above 0
//   4 more than `from` carries, or than the tools cost (to overhead: those kept as an asset)
//   5 it does not say what   6 the tag `to` is not well formed   7 (entered now) both cars
//   were sold before that day   8 the line is no tool of the shop, or no part of `from`
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Transfer {
  Day day;
  std::string from, to, what;
  Money amount;
  // Of tools: the receipt line of the tool; else the only one named like `what`, if there is one. Of a part: the line
  // that it came with, whose deposit goes along; where it is entered now else the only one named like `what` of which
  // something stands in `from`. Without one the deposit stays with the car that bought it.
  std::string line;
};
void fields(Transfer&, Fields&);
EntryId record(Recording&, const Transfer&);

}  // namespace nonrunner::book

// A car goes to pieces: from that day on it is "in pieces", and its parts are expected to bring so much yet.
// Said again, it corrects what is expected. A memorandum, which moves no money: parts sold are `recover`.
//
// Refused, the first that applies:
//   1 no vehicle has the tag   2 it was sold or finished   3 it was not bought   4 the amount is below 0
//   5 the day lies before the purchase
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct PartOut {
  Day day;
  std::string vehicle;
  Money still_brings;  // for all that is left of it, before the costs of selling; from 0
};
void fields(PartOut&, Fields&);
EntryId record(Recording&, const PartOut&);

// What is still expected of a car in pieces: what was last said of it, less what was recovered since and what went
// to other cars or the shelf since, at the amount moved, by days (on one day: what was typed after it); not below
// 0; nothing where it is not in pieces.
std::optional<Money> still_brings(const Book&, const std::string& tag, std::optional<Day> on = {});

}  // namespace nonrunner::book

// A line of a car's budget that its owner plans by hand: needed for certain from its day on, until it is bought,
// worked or said to be not needed. A memorandum. A car without an appraisal has its budget from these.
//
// Refused, the first that applies:
//   1 no vehicle has the tag   2 (entered now) the car was left before that day   3 the name is empty
//   4 (entered now) it is the name of a line that every car has   5 the amount or the hours below 0, or neither of
//   them   6 the number of pieces is not above 0
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Plan {
  Day day;
  std::string vehicle, name;
  Money amount;  // for all pieces
  Quantity quantity = Quantity::of(1000);
  Hours hours;  // own, really taken
};
void fields(Plan&, Fields&);
EntryId record(Recording&, const Plan&);

struct PlannedLine {
  Day day;
  EntryId entry = 0;
  std::string name;
  Money amount;
  Quantity quantity;
  Hours hours;
};
// Of entries that count, by day, then entry; a name planned again stands there again, and the last one holds.
std::vector<PlannedLine> planned(const Book&, const std::string& vehicle, std::optional<Day> on = {});

}  // namespace nonrunner::book

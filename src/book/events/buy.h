// The purchase of a vehicle: one entry.
//
//   vehicle cost + price + fees       purses - price, - fees
//   (bought after it was passed, what looking cost is cost of the car again: position.h)
//
// Refused, the first that applies:
//   1 the tag is not well formed   2 it is owned already, or was sold or finished   3 the price is negative   4 a fee is negative
#pragma once
#include "book/events/appraisals.h"
#include "book/events/named_amount.h"
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Buy {
  Day day;
  std::string vehicle;
  Money price;
  std::string purse;
  std::vector<NamedAmount> fees;
  std::string from;      // who sold it; empty: not said
  Distance odometer;     // what it stood at; 0: not said
  std::string job_file;  // where it is, beside the events file; the entry keeps its text, not its place
  std::optional<std::string> settled;  // what an export says was settled when it was kept
  std::string came_to;                 // and the file of what it came to then
  AppraisedJob appraised;              // the job file that becomes the appraisal in force; empty: none
};
// Reading the job file is left to the caller.
void fields(Buy&, Fields&);
EntryId record(Recording&, const Buy&);

}  // namespace nonrunner::book

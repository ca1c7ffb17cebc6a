// Taking an entry back: a reversing entry that names it. Both stay visible, and no report counts either.
//
// The reversal bears the day of the entry that it takes back, so that every report by date leaves both out;
// where that day lies in a closed period it bears its own day, and the closed period stays as it was. So it
// does where that is asked for: a sale of December that falls through in January is no mistake of December.
//
// Refused, the first that applies:
//   1 no such entry                              2 it is a reversal (make the entry again instead)
//   3 it was voided already
//   4 something later rests on it (a return of its line, a sale of the car that it bought, a cost of one that
//     would be passed again, a draw of the stock that it brought, a payment of what it owed): that has to be
//     voided first
//   5 no reason is given   6 a day of its own lies before that of the entry
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Void {
  Day day;
  EntryId entry = 0;
  std::string why;
  bool later = false;  // bears its own day: as it was asked for, or since the period of the entry is closed
};
void fields(Void&, Fields&);
EntryId record(Recording&, const Void&);

// The same for a receipt that a fuller paper replaces; refused where it is no receipt that counts.
struct Replaced {
  // What it had brought to cars whose cost has gone since (with their sale, or from looking to a purchase):
  // the fuller paper has to put that much back, so that only the difference counts where the car's cost goes
  // now.
  std::vector<Posting> gone;
  bool later = false;
};
Replaced void_for_replacement(Recording&, const Void&);

}  // namespace nonrunner::book

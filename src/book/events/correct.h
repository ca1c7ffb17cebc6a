// Putting an entry right: it is taken back and entered anew in one recording, and what hangs on it is carried
// along: cores and returns of its lines (what was really refunded stays as it was), where it stands in the
// budget, the appraisal kept with a purchase, its place in the tray.
//
// Refused, the first that applies:
//   1 no such entry, or a reversal            2 it was taken back already (what stands in its place, a paper or what
//                                               put it right, has to be put right)
//   3 nothing is changed                      4 an event that has no such key, or a paper with several lines and
//                                               none named, or several purses and another amount
//   5 something on the same paper hangs on it, or it is no entry that can be taken back (void_entry.h)
//   6 what the event or one that is carried along refuses as it is then, such as less deposit than came back
//   7 what followed is no longer carried: more paid than is owed, used than is held, a car sold before it is bought;
//     a line changed of which something went back for some days only
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

struct Correction {
  EntryId entry = 0;
  std::optional<std::string> vehicle, purse, what;
  std::optional<std::string> amount;  // a decimal number: money, or hours
  std::optional<Day> day;
  std::string paper_line;            // of a paper with several lines: its id
  std::optional<std::string> under;  // a line of the budget, by its name
};
struct Corrected {
  EntryId entry = 0;
  std::vector<EntryId> carried;  // as they are now
  std::optional<Day> moved_to;   // the first open day, where it lay in a closed period
};
Corrected correct(Recording&, const Correction&);

bool is_voided(const Book&, EntryId);
// Records an entry that counts no more once again, as its event says; what names it by its number follows.
EntryId make_again(Recording&, const Entry&);

}  // namespace nonrunner::book

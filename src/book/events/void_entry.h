// Taking an entry back: a reversing entry that names it. Both stay visible, and no report counts either.
//
// What was typed wrong never was: the reversal bears the day of the entry, which then counts on no day. What
// was taken back `later` counts until the day before: the reversal bears its own day, and stands under the
// day of what it takes back. So it does where that lies in a closed period, which stays as it was, and where
// it is asked for: a sale of December that falls through in January is no mistake of December.
// Of a sale taken back later the costs stay paid, but for those that `stays` leaves out: each is a selling
// cost of the car on that day. Price, deposit, sales tax and commission go back.
//
// Refused, the first that applies:
//   1 no such entry                              2 it is a reversal (make the entry again instead)
//   3 it was voided already
//   4 something later rests on it (a return of its line, a sale of the car that it bought, a draw of the stock
//     that it brought, a payment of what it owed): that has to be voided first
//   5 no reason is given   6 a day of its own lies before that of the entry
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "book/events/named_amount.h"
#include "book/ledger/entry.h"
#include "exact/hint.h"

namespace nonrunner::book {

class Fields;

struct Void {
  Day day;
  EntryId entry = 0;
  std::string why;
  bool later = false;  // bears its own day: as it was asked for, or since the period of the entry is closed
  // Of a sale taken back later: which of its costs stay paid; not said: all. The commission goes back.
  std::optional<std::vector<std::string>> stays;
  // An entry that follows in the same recording takes its place, so that refusal 4 is for what went back alone: what was
  // paid, used or sold since is looked at when that is there (book/ledger/day_checks.h). Of a sale nothing stays paid then.
  bool makes_way = false;
};
// The reasons that are given with `makes_way` where the entry is put right, and where it is one of several quick lines of a
// paper: an events file tells these from what is undone by nothing else.
inline constexpr const char* to_put_right = "put right";
inline constexpr const char* by_full_paper = "replaced by the full paper";
// How the reversal takes the place; nullptr: not at all.
const char* how_it_makes_way(bool makes_way, const std::string& why);
void fields(Void&, Fields&);
EntryId record(Recording&, const Void&);
// What the entry made of a car: bought, sold, finished, passed; empty: nothing.
std::string turn_of(const Book&, EntryId);
// What others got at a sale: its costs, each with its purse.
std::vector<NamedAmount> paid_to_others(const Book&, EntryId sale);

// Does it, and says of a refusal of a void that it is one of `event`, which took something back on its way.
template <class Action>
auto as_typed(const std::string& event, Action action) {
  try {
    return action();
  } catch (const Refusal& refusal) {
    const std::string what = refusal.what(), own = "void: ";
    if (!what.starts_with(own)) throw;
    refuse_as(event + ": " + what.substr(own.size()), refusal);
  }
}

// The same for a receipt that a fuller paper replaces; refused where it is no receipt that counts.
struct Replaced {
  bool later = false;  // it counts until the day of the paper; else it never was
  Day day;  // the day that the paper bears: the earlier of both, or that on which the other is gone
  std::vector<std::string> cars;  // that it was about
};
Replaced void_for_replacement(Recording&, const Void&);
// The same for one more quick line, beside the one that a paper of the day `paper` names; the paper is recorded next.
void give_place(Recording&, EntryId quick, Day paper);

}  // namespace nonrunner::book

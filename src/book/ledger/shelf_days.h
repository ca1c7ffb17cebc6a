// The shelf by days: stock at the moving weighted average, reckoned in the order of days, whatever was typed
// first. On one day what comes in is first, then what goes back to its supplier, then all draws together at
// one average, then the count.
//
//   in      at what it cost
//   back    at what the pieces cost on their own line (the k after g of its n pieces: round(C (g + k) / n) -
//           round(C g / n)), never at more than the shelf stands at; the last pieces take all that is left
//   draws   value x drawn / pieces, rounded half away from zero, the last pieces taking all; shared over the
//           cars by largest remainder, ties by tag
//   count   the pieces found stay; what is missing or over is valued at the average
//
// An entry with an earlier day than draws, counts and returns that were made already changes what these come
// to; so does one that is taken back. settle_shelf() enters the difference: one entry `average` for each day
// of theirs that is touched, standing under that day.
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

struct ShelfMove {
  std::string what;                  // in, back, draw, count
  std::string vehicle;               // of a draw
  std::int64_t line = 0;             // of what goes back
  Quantity quantity;                 // signed: what it does to the shelf; of a count: not given
  Money amount;                      // of what comes in
  std::optional<std::int64_t> said;  // of a count: thousandths found
  Quantity goods = {};               // of what goes back: pieces as they were bought
};

struct ShelfChange {
  Quantity quantity;
  Money amount;
};
// What a draw, a count or a return comes to on its day among what is there already. Throws Refusal where more
// leaves than is there on that day.
ShelfChange change_of_shelf(const Book&, const std::string& event, const std::string& item, Day,
                            const ShelfMove&);
// Adds the row that the shelf is reckoned from, and posts the change to the stock account.
void post_to_shelf(Draft&, const std::string& item, const ShelfMove&, const ShelfChange&);
// After an entry that moved the item from the day `from` on: enters what it changed of later draws, counts
// and returns, on no day before that of the entry. Throws Refusal where more leaves the shelf than is there.
void settle_shelf(Recording&, const std::string& event, const std::string& item, Day from, Day entry_day);

}  // namespace nonrunner::book

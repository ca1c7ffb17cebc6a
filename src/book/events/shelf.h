// The shelf: stock at the moving weighted average by days (shelf_days.h). The value is carried, never a
// rounded unit cost; the last piece takes what is left of the value.
//
//   draw:    vehicle cost + value   stock - value, - pieces          (never below zero)
//   count:   overhead + value of what is missing   stock - value     (over: the other way round)
//   shelve:  stock + amount, + pieces   vehicle cost - amount
//
// draw is refused, the first that applies:    1 no such item   2 no piece   3 more than lies on the shelf
// count is refused:   1 no such item   2 a number below 0   3 another count of that day found another number
// shelve is refused:  1 no piece, or no shelf is named   2 neither a line, nor a vehicle with an amount; no such line or car
//                     3 more than is left of the line   4 an amount below 0   5 more than the car carries
#pragma once
#include "book/ledger/line.h"

namespace nonrunner::book {

class Fields;

struct Draw {
  Day day;
  std::string vehicle, stock;
  Quantity quantity;
  std::string heading;  // of the budget, where it stands under another than its words say; may be empty
};
struct Count {
  Day day;
  std::string stock;
  Quantity found;
};
struct Shelve {
  Day day;
  std::string line;             // this line's goods, or
  std::string vehicle, what;    // something else off a car,
  std::optional<Money> amount;  // at this cost (for a line: its share of the line's cost where absent)
  std::string stock;
  Quantity quantity;
};
void fields(Draw&, Fields&);
void fields(Count&, Fields&);
void fields(Shelve&, Fields&);
EntryId record(Recording&, const Draw&);
EntryId record(Recording&, const Count&);
EntryId record(Recording&, const Shelve&);

// What a count of that day found; absent where the item was not counted on it.
std::optional<Quantity> counted_on(const Book&, const std::string& item, Day);
// Throws Refusal where there is no such item, no piece, or fewer on the shelf (where it was counted on that day
// or later, shelf_days.h tells).
void expect_on_shelf(const Book&, const std::string& event, const std::string& item, Quantity pieces, Day);

}  // namespace nonrunner::book

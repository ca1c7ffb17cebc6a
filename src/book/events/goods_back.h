// Goods of a receipt line going back (the event "return"): one entry. A restocking fee stays as cost.
//
//   purse or payable + goods + tax - restocking + core   cost of the line - (goods + tax - restocking)
//   core deposit - the deposit that came along with it     (which purse: see money_back.h)
//   (from the shelf: stock - what the pieces cost on their line, see shelf_days.h; what the refund differs
//   from it is overhead)
//   (a tool that was charged to cars: their cost first, as far as it was; then tools)
//
// Refused, the first that applies:
//   1 no such line                        2 no piece, or more than were bought and not given back
//   3 goods below 0 or above what was paid for the pieces    4 tax below 0 or above theirs (a book that is restored:
//     above what is left of all that was paid for the line, before its discount)
//   5 restocking below 0 or above goods + tax                6 a deposit, and no core is out
//   7 what money_back.h refuses           8 more than lies on the shelf
//   9 more out of a car than it is charged, on any day from its own on; (typed) than stands in the car that is asked for
//  10 a tool whose cost is no longer with the tools, and no car is said
#pragma once
#include <string>
#include <vector>

#include "book/events/money_back.h"
#include "book/events/out_of.h"

namespace nonrunner::book {

class Fields;

struct GoodsBack {
  Day day;
  std::string line;
  Quantity quantity;
  Money goods, tax, restocking;
  std::string purse;                // may be empty, see money_back.h
  std::optional<Money> on_account;  // what of it lowers what is owed to the supplier
  std::optional<Money> core;  // the deposit that comes back along, for the pieces whose core is still out
  // The car that it comes off: of a tool one that the book does not know to be charged; of a part that was moved the
  // one that is meant, where pieces of its line stand in several.
  std::string from;
  Quantity cores;                // of how many pieces it comes along; 0: as many as are out, up to the pieces
  std::optional<Money> deposit;  // what of the line's deposit these carry: see core_back.h
  // What of a tool, or of a part that was moved, comes out of the cars that it was charged to; else reckoned.
  std::vector<OutOf> out_of;
};
void fields(GoodsBack&, Fields&);
EntryId record(Recording&, const GoodsBack&);

// The same inside another event, the money aside (goods that go back on a receipt). Tax may be a minor unit
// above that of the pieces, as a paper rounds for itself. Returns what comes out of which car, for the event to store.
std::vector<OutOf> post_goods_back(Draft&, Recording&, const std::string& event, const GoodsBack&);

// The full refund for the next k pieces after g of n: round(A (g + k) / n) - round(A g / n), once with A the
// line's price less its share of the discount, once with its tax; and of how many of them the core is still
// out.
struct Refund {
  Money goods, tax;
  Quantity cores;
};
Refund full_refund(const Line&, Quantity quantity);

}  // namespace nonrunner::book

// Goods of a receipt line going back (the event "return"): one entry. A restocking fee stays as cost.
//
//   purse or payable + goods + tax - restocking   cost of the line - the same   (which: see money_back.h)
//   (from the shelf: stock - the moving average of the pieces; what the refund differs from it is overhead)
//
// Refused, the first that applies:
//   1 no such line                        2 no piece, or more than were bought and not given back
//   3 goods below 0 or above what the pieces cost    4 tax below 0 or above what is left of the line's tax
//   5 restocking below 0 or above goods + tax        6 what money_back.h refuses
//   7 more than lies on the shelf
#pragma once
#include "book/events/money_back.h"

namespace nonrunner::book {

class Fields;

struct GoodsBack {
  Day day;
  std::string line;
  Quantity quantity;
  Money goods, tax, restocking;
  std::string purse;                // may be empty, see money_back.h
  std::optional<Money> on_account;  // what of it lowers what is owed to the supplier
};
void fields(GoodsBack&, Fields&);
EntryId record(Recording&, const GoodsBack&);

// The same inside another event, the money aside (goods that go back on a receipt). Tax may be a minor unit
// above what is left of the line's tax, as a paper rounds for itself. Returns what comes back.
Money post_goods_back(Draft&, Recording&, const std::string& event, const GoodsBack&);

// The full refund for the next `quantity` pieces: price before tax, and the line's tax x k / n, the last
// taking the rest.
struct Refund {
  Money goods, tax;
};
Refund full_refund(const Line&, Quantity quantity);

}  // namespace nonrunner::book

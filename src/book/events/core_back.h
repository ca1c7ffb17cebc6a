// An old part going back for its deposit: one entry. What is short of the deposit becomes cost of the car.
//
//   purse or payable + amount (see money_back.h)   cost of the line + (deposit for these pieces - amount)
//   core deposit - deposit for these pieces
//
// Refused, the first that applies:
//   1 no such line   2 the line carries no core deposit   3 no piece, or more than are still out
//   4 more money than was paid for them   5 what money_back.h refuses
#pragma once
#include "book/events/money_back.h"

namespace nonrunner::book {

class Fields;

struct CoreBack {
  Day day;
  std::string line;
  Quantity quantity;
  Money amount;
  std::string purse;                // may be empty, see money_back.h
  std::optional<Money> on_account;  // what of it lowers what is owed to the supplier
};
void fields(CoreBack&, Fields&);
EntryId record(Recording&, const CoreBack&);

// The same inside another event, the money aside (a core handed over the counter on a receipt).
void post_core_back(Draft&, Recording&, const std::string& event, const std::string& line, Quantity,
                    Money received);
// The deposit for the next `quantity` pieces of the line that go back, the last taking the rest.
Money core_deposit_of(const Line&, Quantity quantity);

}  // namespace nonrunner::book

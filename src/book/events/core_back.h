// An old part going back for its deposit: one entry. What is short of the deposit becomes cost of the car.
//
//   purse or payable + amount (see money_back.h)   cost of the line + (deposit for these pieces - amount)
//   core deposit - deposit for these pieces
//
// Refused, the first that applies:
//   1 no such line   2 the line carries no core deposit   3 no piece, or more than are still out
//   4 a deposit that is said and is not theirs   5 more money than was paid for them
//   6 what money_back.h refuses
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
  std::optional<Money> deposit;     // what of the line's deposit these pieces carry; else reckoned
};
void fields(CoreBack&, Fields&);
EntryId record(Recording&, const CoreBack&);

// The same inside another event, the money aside (a core handed over the counter on a receipt).
struct CoresGone {
  std::string line;
  Quantity quantity;
  Money received;
  std::optional<Money> deposit;  // as CoreBack has it
};
void post_core_back(Draft&, Recording&, const std::string& event, const CoresGone&);
// What of the line's deposit is decided with these cores and stored with their event: whose unit it is where the
// deposit does not part evenly, or another day typed first would make it another's. Absent: it parts evenly.
std::optional<Money> deposit_decided(const Line&, Quantity, const std::optional<Money>& said);
// The deposit for the next `quantity` pieces of the line that go back, the last taking the rest.
Money core_deposit_of(const Line&, Quantity quantity);

}  // namespace nonrunner::book

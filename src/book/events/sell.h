// The sale of a vehicle: one entry.
//
//   purse          + price + sales tax - deposit used    buyer deposit + deposit used     sales      - price
//   selling cost   + commission + costs                  purses - commission, - costs     sales tax  - tax
//
// It moves no cost: what was put into the car up to that day is its cost of sale, read by days (position.h).
//
// Refused, the first that applies:  1 no vehicle has this tag   2 it is not owned, or sold already
//   3 a clock still runs on it      4 the price is negative     5 the day lies before the purchase
//   6 a cost, the commission or the tax is negative, or the commission above the price
//   7 more of a deposit is used than is held, or than the price
//
// Before the sale that reaches the shop's dealer limit (setting dealer-limit: sales in twelve months) it remarks on it.
#pragma once
#include "book/events/named_amount.h"
#include "book/ledger/entry.h"
#include "exact/rate.h"

namespace nonrunner::book {

class Fields;

struct Sale {
  Day day;
  std::string vehicle;
  Money price;
  std::string purse;
  Money deposit_used;
  std::vector<NamedAmount> costs;
  Money commission;      // an amount; a rate was turned into one at the edge, rounded half away from zero
  Rate commission_rate;  // where it was agreed as a share of the price; zero: as an amount
  Money tax;             // collected on top of the price, owed to the state
  std::string to;        // who bought it; empty: not said
  Distance odometer;     // what it stood at; 0: not said
};
void fields(Sale&, Fields&);
EntryId record(Recording&, const Sale&);

// A commission as people write it: below 1 a share of the price, from 1 up an amount of money.
struct Commission {
  Money amount;
  Rate rate;  // zero: it was an amount
};
Commission commission_of(const std::string& text, Money price, const Currency&);
// Cars sold in the twelve months that end with `day`, that day included.
int sold_in_twelve_months(const Book&, Day day);

}  // namespace nonrunner::book

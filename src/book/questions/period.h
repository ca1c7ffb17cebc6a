// A period of the journal: what moved on each account from one day to another, both included. What a year's
// report is made of, so it stays as it was handed over: an entry that is taken back within the period is left
// out with its reversal; one that is taken back on a later day counts here, and its reversal counts there.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/entry.h"
#include "figures/sale.h"
#include "figures/trip.h"

namespace nonrunner::book {

// What a car cost and brought is shown by what became of it (position.h): inventory, cost of sale, written
// off, late cost, looking, income from recoveries, each the difference of two days.
struct AccountMovement {
  std::string kind, name;
  Money sum, in, out;  // sum = in - out; in: debits
  Quantity quantity;
  Money closing;  // what of the sum comes from sales and write-offs, which close a car's accounts
  Money set_off;  // of looking: what recoveries took off it
};
std::vector<AccountMovement> movements(const Book&, Day from, Day to);

// Between the owner and the shop: money put in and taken out, and what was bought for the owner on the shop's papers,
// less what of it went back.
struct OwnerMoved {
  Money put_in, taken_out, on_papers;
};
OwnerMoved owner_moved(const Book&, Day from, Day to);

struct PeriodLine {
  Day day;
  EntryId entry = 0;
  std::string what;   // the entry in words
  std::string about;  // the account's name, or the cars
  Money amount;
  bool of_before = false;  // it takes back one of before the period, or puts one right
};
// What was posted to an account of this kind, entry by entry.
std::vector<PeriodLine> posted_to(const Book&, const std::string& account_kind, Day from, Day to);
// What the entries of the period say they put into cars, by what it was for: a reversal takes back what its
// entry said. `kind`: purchase, fee, part, consumable, sublet, paid hours, other cost; `source` of a part as the
// paper said it.
struct PutIn {
  EntryId entry = 0;
  std::string kind, source;
  Money amount;
};
std::vector<PutIn> put_into_cars(const Book&, Day from, Day to);
// Parts sold off cars and scrap, each at what was got for it, whatever of it is income; given back: below zero.
std::vector<PeriodLine> parts_sold(const Book&, Day from, Day to);
// Receipts of which there is no paper. Those of before the period that were taken back in it, or whose paper came, are
// below zero: a year that was handed over stays, and two years add up to what both of them have.
std::vector<PeriodLine> without_paper(const Book&, Day from, Day to);

// The tax that receipts of the period say is in what their lines cost, less that of goods that went back in it: not what
// lies on a deposit, which comes back, nor what was bought for the owner. A quick line does not say it.
Money tax_in_costs(const Book&, Day from, Day to);

// By day, then as entered; without where from and to. Those of before the period that were taken back in it are below zero.
std::vector<figures::Trip> trips(const Book&, Day from, Day to);

// Without what the papers name.
std::vector<figures::Sale> sales(const Book&, Day from, Day to);
// The prices of the sales that fell through on a day of the period, whenever they were made: what was sold is
// shown before them and after.
Money sales_returned(const Book&, Day from, Day to);

Hours own_hours(const Book&, const std::string& vehicle, Day from, Day to);

}  // namespace nonrunner::book

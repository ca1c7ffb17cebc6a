// What is about to be recorded, looked at beside what is there: may it be the same thing twice?
//
// A paper fits a quick line that waits for one where car, purse and supplier do not contradict each other (one
// that was left out contradicts nothing; the quick line's car is one of the paper's), and either the totals
// agree to the cent within 10 days, or they lie within 2 % (at most 2 main units of money, at least one
// smallest coin) within 3 days. Quick lines of one day and purse may fit by their sum. Whatever its total, a paper
// fits those of the last and next 10 days whose words a line of it has: it came with an entrance fee, or bills several
// days. The limits are common practice, no source.
#pragma once
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "book/events/buyer_deposit.h"
#include "book/events/hours.h"
#include "book/events/owner.h"
#include "book/events/receipt.h"
#include "book/events/recover.h"
#include "book/events/trip.h"

namespace nonrunner::book {

struct QuickLines {
  std::vector<EntryId> entries;  // one, or several: of one day, or named by the paper
  Day day;                       // of several days the last
  Money total;
};
// Those whose place the paper may take: nearest day first, then nearest total, then fewest.
std::vector<QuickLines> quick_lines_that_fit(const Book&, const Receipt&);
// A receipt of the same day with the same total, where car, purse and supplier do not contradict each other.
std::optional<EntryId> receipt_like(const Book&, const Receipt&);

// Own hours of the same day, car and operation, as many.
std::optional<EntryId> hours_like(const Book&, const Labour&);
Hours own_hours_on(const Book&, Day);
// Nobody works more than this on one day; above the other it is asked about.
inline const Hours most_hours = Hours::of(24'000), many_hours = Hours::of(16'000);

// What of an event says whether it is one that is there already. Money that goes back the other way needs none: it is held
// against what came in.
struct Once {
  std::string event;  // as the book calls it; empty: it is never asked about
  Day day;
  std::set<std::string> vehicles;
  std::string purse;
  Money into;  // below zero: out of the purse
  Distance distance;
  std::string what;  // in words, where two of one day are told by them; empty: they are not
  bool again = false;
};
Once once(const Recover&);
Once once(const OwnerMoney&);
Once once(const BuyerDeposit&);
Once once(const Trip&);
// One of the same day, kind, cars and words, as much through the same purse, or as far.
std::optional<EntryId> entry_like(const Book&, const Once&);
// "25.00 into cash for pip on 2026-05-02"
std::string called(const Once&, const Book&);

// For a recording that is wary: refuses what looks like something that is there and does not say that it is
// another one, and more own hours than a day has.
void expect_no_double(const Recording&, const Receipt&);
void expect_no_double(const Recording&, const Labour&);
void expect_no_double(const Recording&, const Once&);

}  // namespace nonrunner::book

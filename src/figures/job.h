// What the job workbook is made of (reports/job.h says what it shows).
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "exact/currency.h"
#include "exact/day.h"
#include "exact/money.h"
#include "exact/price.h"
#include "exact/rate.h"
#include "exact/thousandths.h"
#include "figures/book_state.h"
#include "figures/due.h"
#include "figures/open.h"

namespace nonrunner::figures {

// Anything that money is spent on: the purchase, fees, a part, a consumable, work sent out.
struct JobCost {
  std::string part_of;  // purchase, fees, correction, fixes, discovery, parting out
  std::string what;
  bool price_paid = false;  // for the car itself
  bool budgeted = true;     // false: not in the estimate at all
  Quantity budget_quantity = Quantity::of(1000);
  Price budget_price;
  std::optional<Quantity> quantity;  // bought so far, where pieces mean something
  Money actual;                      // spent so far, as it counts
  Money to_complete;                 // still to be spent
  // What it follows from: the pieces of the budget that are not bought yet, at their price; what is left of
  // the budget's amount; or nothing, where it is a figure of its own.
  enum class Follows { nothing, pieces, amount } follows = Follows::nothing;
  double chance = 1;                     // that it is needed; the budget counts it so
  Money if_needed;                       // what it comes to then
  std::vector<WaitingPaper> waits = {};  // under this line, or may be it
};

struct JobHours {
  std::string operation;
  bool budgeted = true;
  Hours budget, actual, to_complete;  // own hours really to be worked, the pace applied
  Hours paid;                         // of helpers, so far; their money stands among the costs
  bool follows = false;               // what is to complete is what is left of the budget
};

struct JobFinding {
  Day day;
  std::string text;
};

struct JobFigures {
  std::string tag, description, complaint;
  Currency currency;
  Day made_on;
  BookState book;
  std::optional<Day> bought_on;
  std::optional<Day> ended_on;         // sold or finished: nothing is still to come
  std::string ended;                   // sold or finished, as it is called
  std::optional<Day> in_pieces_since;  // still to come: the work of it, and what its parts bring
  Money not_yet_recovered;             // of a car in pieces: what of its cost is left
  Money still_brings;                  // of a car in pieces: what is still expected for its parts
  std::string cause;                   // found or, before that, the one that the budget is for
  bool cause_is_noted = true;          // false: nobody noted one, and this is the likeliest
  std::optional<Day> budget_on;        // when the appraisal was kept; absent: there is none
  Money hour;
  Rate commission_rate;
  Money selling_costs;  // still expected
  Money selling_costs_so_far;
  Money recovered;                        // so far, lowers the cost
  Money deposit_kept;                     // of a buyer who did not come
  std::optional<Money> break_even_price;  // as the book says
  std::optional<Money> expected_price;
  std::optional<Money> holding_per_day;  // imputed, never booked
  std::vector<JobCost> costs;
  std::vector<JobHours> hours;
  std::vector<Due> due;
  std::vector<Due> may_go_back;      // lines whose last day is not over, this vehicle's part of the refund
  std::vector<JobFinding> findings;  // what was noted of it, by day
  std::vector<Open> waiting;         // quick lines that wait to be itemised, a deposit that is held
  Money cost;                        // put in so far, as the book says
};

}  // namespace nonrunner::figures

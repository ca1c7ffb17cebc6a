// A car's budget: the appraisal in force, reckoned for the cause that was found, beside what was booked.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "appraisal/estimate.h"
#include "book/events/appraisals.h"
#include "book/questions/figures.h"
#include "book/questions/vehicle_money.h"

namespace nonrunner::answers {

struct BudgetLine {
  appraisal::EstimatedLine estimate;
  Quantity qty;    // of the estimate
  Price each;      // expected, of one: every amount of the line follows from it, here and in the workbooks
  Money expected;  // rounded half away from zero to a minor unit
  Money booked;    // cost so far
  Money to_come;   // of a car that is neither sold nor in pieces: what of it is still to be spent
  bool in_estimate = true;  // false: a heading that a person gave to what was booked, with nothing expected
  // Nothing of it is still to come, whatever was booked: opening up once the cause is known.
  bool finished = false;
  // By pieces: what is to come are the pieces not bought yet at their price. Else it is the amount not spent
  // yet.
  bool by_piece() const;
  Quantity pieces;  // bought so far
};
struct BudgetWork {
  appraisal::EstimatedWork estimate;
  Hours booked;
  double to_come = 0;
  bool in_estimate = true;  // as above
  bool finished = false;    // as above
};

struct Budget {
  Day kept_on;
  std::string cause;
  bool cause_is_noted = false;  // false: nobody noted the cause; the likeliest of the appraisal is taken
  appraisal::Job job;
  appraisal::Estimate estimate;
  std::vector<BudgetLine> lines;
  std::vector<BudgetWork> work;
  std::vector<book::MoneyLine> money;                   // every line of money of the car
  std::vector<std::optional<std::size_t>> money_under;  // the place of each in `lines`
  std::vector<book::WorkLine> worked;
  std::vector<std::optional<std::size_t>> worked_under;  // in `work`
  Money cash_to_come;
  double hours_to_come = 0;
};

// Absent where no appraisal was kept, or its cause cannot be put right. `cause` overrides what was noted;
// throws Refusal where the appraisal knows no such cause (names the nearest). `on`: as it stood at the end of
// that day.
std::optional<Budget> budget_of(const book::Book&, const std::string& tag, const std::string& cause = {},
                                std::optional<Day> on = {});

// The part of a Budget that every appraisal has: its job, its day and the cause. Absent only where none was
// kept; throws as budget_of does.
std::optional<Budget> appraised_cause(const book::Book&, const std::string& tag,
                                      const std::string& cause = {}, std::optional<Day> on = {});

// Why the cause of such a part cannot be put right ("the appraisal has no correction for it"); empty where it
// can.
std::string why_not_put_right(const Budget&);

// Whether the line of money at this place of `money` stands in the estimate: under a line of it, not under a
// heading of one's own or none.
bool in_estimate(const Budget&, std::size_t money);

// What the appraisal in force still expects of a car that is not sold; the costs of selling less those that
// are booked.
book::Expected expected_of(const Budget&, const Currency&);

}  // namespace nonrunner::answers

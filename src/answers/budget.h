// A car's budget: what is known of it (answers/known.h) reckoned as lines, beside what was booked. The one
// answer to "what is still to come on this car", which `show`, `price`, `go-on`, the job workbook and the
// shopping list ask alike.
//
// One name is one line, however many corrections name it. What is to come is counted state by state: a state is
// how far along the corrections of the cause it goes, each with its chance; in each a line needs what the
// corrections made there need together, and what is left of that is to come. A line is open until it is done:
//
//   parts, lines by hand      the pieces planned are there, whatever they cost; what is not counted (a quick
//                             line, a part from another car) brings all of them
//   consumables, work sent    anything is booked, unless more was said to come
//   fees, faults              nine tenths of the amount are booked (common practice, no source)
//   hours                     it is said
//   opening up                the cause is found
// What is said stands above that (answers/closed.h). A car sold or finished has no open lines. Of one in pieces everything is not
// needed that was not done by then; open is "parting out", with what the appraisal says of it.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "answers/known.h"
#include "answers/why_not.h"
#include "appraisal/estimate.h"
#include "book/questions/figures.h"
#include "book/questions/vehicle_money.h"
#include "exact/hint.h"

namespace nonrunner::answers {

enum class LineState { open, done, not_needed };
const char* name_of(LineState);  // "open", "done", "not needed"

struct BudgetLine {
  appraisal::EstimatedLine estimate;
  int number = 0;   // on this car's screens; 0: a heading of one's own
  Quantity qty;     // of the estimate
  Price each;       // expected, of one: every amount of the line follows from it, here and in the workbooks
  Money expected;   // rounded half away from zero to a minor unit
  Money booked;     // cost so far
  Money to_come;    // what of it is still to be spent, by the chance that it is needed
  Money if_needed;  // the same where it is needed for certain
  bool in_estimate = true;  // false: a heading that a person gave to what was booked, with nothing expected
  LineState state = LineState::open;
  bool follows = true;  // what is to come follows from what stands in the line: qty, pieces, each, booked
  Quantity pieces;      // bought so far
  // By pieces: what is to come are the pieces not bought yet at their price. Else it is the amount not spent
  // yet.
  bool by_piece() const;
  bool finished() const { return state != LineState::open; }
  double chance() const { return estimate.reached; }  // that it is needed, the cause being the one taken
};
struct BudgetWork {
  appraisal::EstimatedWork estimate;
  int number = 0;
  Hours booked;
  double to_come = 0;
  double chance = 1;
  bool in_estimate = true;  // as above
  LineState state = LineState::open;
  bool follows = true;
  bool finished() const { return state != LineState::open; }
};

// What was booked, with the place of the line of the budget that it stands under.
struct PlacedMoney : book::MoneyLine {
  std::optional<std::size_t> place;  // in Budget::lines
};
struct PlacedWork : figures::Work {
  std::optional<std::size_t> place;  // in Budget::work
};

// A line that only another cause would need.
struct OtherLine {
  appraisal::EstimatedLine estimate;
  int number = 0;
  double chance = 0;
  Money if_needed;
};

// What is to come if it is one cause.
struct IfCause {
  std::string cause;
  double chance = 0;
  Money to_come;
  double hours_to_come = 0;
};

// What is still to come where the cause is put right or left after so many corrections of its chain, in units; the fees
// left out.
struct ToComeAlong {
  double cash = 0, hours = 0;              // whether the last one cured or not
  double cured_cash = 0, cured_hours = 0;  // fixes and work on troubles, made only on a car that is cured
};

struct Budget {
  Day kept_on;
  std::string cause;
  bool cause_is_noted = false;  // false: nobody noted the cause; the likeliest is taken
  double cause_chance = 1;
  bool repair_unknown = false;          // it is something else: what its repair takes is not in the appraisal
  std::optional<WhyNot> not_put_right;  // of the cause taken: the budget is without a repair
  bool appraised = true;                // false: it has only lines planned by hand
  bool ready = false;                   // said, or advertised
  bool in_pieces = false;
  appraisal::Job job;                              // as of that day, what was found applied to it
  std::vector<std::optional<bool>> trouble_there;  // by trouble; absent: nobody looked, and no line counts it
  appraisal::Estimate estimate;
  std::vector<BudgetLine> lines;
  std::vector<BudgetWork> work;
  std::vector<OtherLine> only_if;        // the likeliest first
  std::vector<IfCause> if_cause;         // every cause that can be put right, the likeliest first
  std::vector<PlacedMoney> money;        // every line of money of the car
  std::vector<PlacedWork> worked;        // all hours on it
  std::vector<std::string> left_faults;  // left on the car, as was said
  std::vector<book::Fact> against;       // tests that speak against the cause found
  std::vector<book::Fact> not_in_it;     // findings that the appraisal does not know
  Money cash_to_come;
  double hours_to_come = 0;
  std::vector<ToComeAlong> along;  // by corrections made, from one on
  double marks_left = 0;           // what a buyer takes off for the faults that are left, as was said

  // Where no cause stands at nine tenths: the one with the most to come of those with at least 3 %, where that
  // is more than the likeliest's.
  const IfCause* dearest() const;
  Money by_chances() const;  // what is to come, over all causes by their chances
};

// Absent where no appraisal was kept and nothing planned. Where its cause cannot be put right nothing of a repair is in it
// (`not_put_right`): lines by hand, fees and the costs of selling are, and what is booked. `cause`
// overrides what was noted; throws Refusal where the appraisal knows no such cause (names the nearest). `on`:
// as it stood at the end of that day.
std::optional<Budget> budget_of(const book::Book&, const std::string& tag, const std::string& cause = {},
                                std::optional<Day> on = {});
// The lines of money of a car, under none where it has no budget.
std::vector<PlacedMoney> placed_money(const book::Book&, const std::string& tag,
                                      const std::optional<Budget>&);
// The same by the appraisal that looks back, for variance and own pace: what was planned by hand is no part of
// it, and stands as a heading of one's own, so that what it replaced is measured against. Absent where none was
// kept by the purchase, or where the cause cannot be put right: nothing was expected of a repair.
std::optional<Budget> budget_at_purchase(const book::Book&, const std::string& tag);

// The part of a Budget that every appraisal has: its job, its day and the cause. Absent only where none was
// kept; throws as budget_of does.
std::optional<Budget> appraised_cause(const book::Book&, const std::string& tag,
                                      const std::string& cause = {}, std::optional<Day> on = {});

// Of the cause of such a part; absent where it can.
std::optional<WhyNot> why_not_put_right(const Budget&);

// Refuses to `command` a car with something else that its appraisal does not know (`repair_unknown`): nothing is known of
// what its courses bring. `way_out`: where an appraisal that does is kept.
[[noreturn]] void refuse_unknown_repair(const std::string& command, const std::string& tag, Action way_out);

// Lines that have something booked and that a later appraisal, `job`, does not have any more; with its own new lines that
// each is close to.
struct LeftBehind {
  std::string name;
  bool is_hours = false;
  Money booked;
  Hours worked;
  std::vector<std::string> may_be;
};
std::vector<LeftBehind> left_behind(const book::Book&, const std::string& tag, const appraisal::Job& job);

// Whether a line of `money` stands in the estimate: under a line of it, not under a heading of one's own or none.
bool in_estimate(const Budget&, const PlacedMoney&);

// What the appraisal in force still expects of a car that is not sold; the costs of selling less those that
// are booked.
book::Expected expected_of(const Budget&, const Currency&);
// The same if it is that cause.
book::Expected expected_of(const Budget&, const IfCause&, const Currency&);

}  // namespace nonrunner::answers

// The answer to "is this car worth buying": all figures of one job, as plain values for the screen, for JSON
// and for a workbook. Money is in the currency's units and not rounded; whoever prints it rounds it. Prices
// that are looked for (the walk-away price and its like) are whole numbers of the smallest coin.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "appraisal/buying.h"
#include "appraisal/cautions.h"
#include "appraisal/courses.h"
#include "appraisal/haggling.h"
#include "appraisal/job.h"
#include "appraisal/moves.h"
#include "appraisal/plan.h"
#include "appraisal/sound_value.h"
#include "appraisal/spread.h"
#include "figures/verdict.h"

namespace nonrunner::appraisal {

using figures::Verdict;
const char* name_of(Verdict);  // "buy", "test first", "offer less", "walk away"

struct CauseFigures {
  double prior = 0, probability = 0;
  Course best = Course::as_found;  // the one taken with the highest chance, over the troubles
  // By course, in the order of all_courses: mean over the troubles under which it is on offer; absent where
  // it never is. The price, the fees and the opening up are left out: every course bears them alike.
  std::array<std::optional<double>, 4> profit;
  // What counts: the best course in each case of the troubles. How likely each is to be the best, and the
  // mean of what the best ones bring, with the same things left out.
  std::array<double, 4> taken{};
  double counted = 0;
};

struct OfferFigures {
  std::string name;
  double price = 0;
  double expected_profit = 0;
  WalkAway walk_away;      // the highest price at which all aims hold under it
  double loss_chance = 0;  // at its price
  bool all_aims_hold() const { return price <= walk_away.price; }
};

struct Expected {
  double cash_profit = 0, profit = 0, own_hours = 0, days = 0;
  double sale_price = 0;  // what the car or its pieces bring, before commission, mean over the cases
  // Paid before that money comes: price, fees, work, deposits, selling; holding left out.
  double cash_needed = 0;
  std::optional<double> per_hour;  // expected cash profit / expected own hours; absent without own hours
};

// If it is bought now, under one offer at one price, and each case goes the way that the policy says.
struct AtPrice {
  std::size_t offer = 0;
  double price = 0;
  Policy policy;  // `holds` false: no policy holds the aims, and this is the most profitable one
  Expected expected;
  Risk risk;
  CashNeeded cash_needed;
};

struct AfterTest {
  std::size_t outcome = 0;
  double chance = 0;
  WalkAway walk_away;
  double expected_profit = 0;  // of buying then, as it stands, at the price of the plan
  // The offer that the best plan takes then and its limit: absent where the plan goes on with a test or walks
  // away.
  std::optional<std::size_t> takes;
  double of_taken = 0;
  // Where buying unseen is allowed at the price of the plan and after this outcome it is not, though its
  // profit would do: the aim that bars it; and the chance of a loss then.
  std::optional<Aim> barred_by;
  double loss_chance = 0;
};

// How the walk-away price hangs on the aim for the chance of a loss: with it a point lower, and higher.
struct Cliff {
  double a_point_less = 0, a_point_more = 0;
};

// The verdict at prices of the plain offer: from above the one before up to this price.
struct UpTo {
  std::optional<double> price;  // in whole coins; absent: at every price above
  Verdict verdict = Verdict::walk_away;
  std::size_t offer = 0;  // that is to be taken where the verdict is to buy
};

struct Appraisal {
  Job job;
  double asking = 0;
  Verdict verdict = Verdict::walk_away;
  WalkAway walk_away;
  double with_tests = 0;             // the with-tests price
  std::optional<double> test_from;   // from here on up to `with_tests` a test comes first
  UpTo above;                        // a coin above it, and above the walk-away price: what is left there
  std::vector<UpTo> at_prices;       // from 0 on; empty but where it is asked for (appraise.h)
  std::optional<Cliff> cliff;        // where the two differ by more than a tenth
  std::vector<CauseFigures> causes;  // in the order of the job, at the price asked
  std::vector<double> troubles;      // chance of each now
  std::vector<OfferFigures> offers;  // the plain one first
  // The place of the one to take now in place of the plain one: of those at which all aims hold, else of all,
  // the one with the most profit to be expected, if that is at least the profit aimed at and its limit above
  // zero. Absent where that is the plain one.
  std::optional<std::size_t> better;
  // Where another offer may be taken at its price: from this price of the plain one on it is the better one.
  std::optional<double> better_from;
  Plan plan;               // at the price asked
  Plan plan_at_walk_away;  // a coin above it where no test pays at it but one does there; at 0 where it is
                           // below
  std::vector<AfterTest> after_first_test;  // of next_plan(); empty where that does not begin with a test
  AtPrice asked;                            // the plain offer at the price asked
  AtPrice to_pay;                           // at what the head of the answer tells to pay
  Policy at_walk_away;                      // the most profitable one that holds there
  FixPlan fixes;
  std::vector<CostToName> costs_to_name;
  std::optional<double> first_figure;  // to say when haggling
  std::vector<Move> moves;
  std::vector<Caution> cautions;
  std::vector<std::string> notes;  // what a person should know about how the figures came about
  SoundValue sound;

  // The plan whose first test is the next one: at the price asked where that comes first, at the walk-away
  // price where less is to be offered. It does not begin with a test where none is to be made.
  const Plan& next_plan() const { return verdict == Verdict::offer_less ? plan_at_walk_away : plan; }
  // The offer that deciding now would take; absent where none is allowed.
  std::optional<std::size_t> decided() const;
};

}  // namespace nonrunner::appraisal

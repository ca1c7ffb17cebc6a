// The answer to "is this car worth buying": all figures of one job, as plain values for the screen, for JSON
// and for a workbook. Money is in the currency's units and not rounded; whoever prints it rounds it.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "appraisal/cautions.h"
#include "appraisal/courses.h"
#include "appraisal/distribution.h"
#include "appraisal/haggling.h"
#include "appraisal/job.h"
#include "appraisal/moves.h"
#include "appraisal/plan.h"
#include "appraisal/sound_value.h"
#include "appraisal/walk_away.h"

namespace nonrunner::appraisal {

enum class Verdict { buy, test_first, offer_less, walk_away };
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

struct Expected {  // if bought now, as it stands, at the price asked
  double cash_profit = 0, profit = 0, own_hours = 0, days = 0;
  double sale_price = 0;  // what the car or its pieces bring, before commission, mean over the states
  double cash_needed =
      0;  // paid before that money comes: price, fees, work, deposits, selling; holding left out
  std::optional<double> per_hour;  // expected cash profit / expected own hours; absent without own hours
};

struct Risk {
  double loss_chance = 0;
  std::array<double, 5> cash_profit{};  // at 5, 25, 50, 75, 95 %
  std::array<double, 5> profit{};
  double sampled_cash_profit = 0;  // mean of the points, against Expected::cash_profit by formula
  double sampled_profit = 0;
  std::size_t points = 0;
  // The spread of the cash profit: `bars` equal steps from `from` to `to` with the chance of each; what lies
  // outside is in the first and the last.
  double from = 0, to = 0;
  std::vector<double> bars;
};

struct AfterTest {
  std::size_t outcome = 0;
  double chance = 0;
  WalkAway walk_away;
  double expected_profit = 0;  // of buying then, as it stands, at the price asked
  // The offer that the best plan takes then, which goes by the profit alone, and its limit: absent where the
  // plan goes on with a test or walks away.
  std::optional<std::size_t> takes;
  WalkAway of_taken;
};

struct Appraisal {
  Job job;
  double asking = 0;
  Verdict verdict = Verdict::walk_away;
  WalkAway walk_away;
  std::vector<CauseFigures> causes;  // in the order of the job
  std::vector<double> troubles;      // chance of each now
  std::vector<OfferFigures> offers;  // the plain one first
  // The place of the one to take now in place of the plain one: of those at which all aims hold, else of all,
  // the one with the most profit to be expected, if that is at least the profit aimed at and its limit above
  // zero. Absent where that is the plain one.
  std::optional<std::size_t> better;
  Plan plan;
  std::vector<AfterTest> after_first_test;  // empty where the plan does not begin with a test
  Expected expected;
  Risk risk;
  FixPlan fixes;
  std::vector<CostToName> costs_to_name;
  std::vector<Move> moves;
  std::vector<Caution> cautions;
  std::vector<std::string> notes;  // what a person should know about how the figures came about
  SoundValue sound;
};

}  // namespace nonrunner::appraisal

// What the appraisal workbook is made of (reports/appraisal.h says what it shows).
//
// Everything here is an opinion or an expected value: doubles in the currency's units, not rounded.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "exact/currency.h"
#include "exact/day.h"
#include "figures/aim.h"
#include "figures/book_state.h"
#include "figures/verdict.h"

namespace nonrunner::figures {

// A line of a correction. Cash = quantity x price; hours by the estimate, before the pace.
struct CorrectionLine {
  enum class Kind { operation, part, consumable, sublet } kind = Kind::part;
  std::string name;
  std::string source;  // of a part: new, salvage, reman
  double quantity = 1;
  double price = 0;  // expected, of one, a bad one counted
  double hours = 0;  // of an operation; of a part, to pull it
  double core = 0;   // deposit on one: needed, and comes back
};

struct CorrectionFigures {
  std::string name;
  double chance = 0;  // that it comes to it, if the car is bought
  std::vector<CorrectionLine> lines;
};

// What one course brings in one state, and what it depends on that the workbook keeps live.
struct CourseRow {
  double cash =
      0;  // money in less money out, holding and commission included; without price, fees, opening up
  double own_hours = 0;  // really taken, opening up included
  double days = 0;
  double brings = 0;  // got for the car or its pieces, before commission
  double sold_running =
      0;  // chance that it is sold running: then the sound value, the fixes and what is still off count
  bool commission = false;                                  // of what it brings: where it is sold whole
  std::vector<std::pair<std::size_t, double>> corrections;  // which, and the chance that it is made
};

inline constexpr std::array course_names = {"put right", "sell as found", "part out", "scrap"};
inline constexpr const char* do_nothing = "do nothing";  // where none is on offer, in the place of the second

// A cause together with the troubles that are present.
struct StateFigures {
  std::string cause, troubles;  // troubles: "" for none
  double chance = 0;            // all add up to 1
  std::array<std::optional<CourseRow>, 4> courses;
  bool nothing = false;  // no course is on offer: "sell as found" stands for doing nothing
  // In place of the job's, where this cause has its own; hours by the estimate.
  std::optional<double> opening_cash = {}, opening_hours = {};
  const char* course_name(std::size_t course) const {
    return nothing && course == 1 ? do_nothing : course_names[course];
  }
};

struct CauseOdds {
  std::string name;
  double prior = 0, probability = 0;
};

struct FixFigures {
  std::string name, source;
  double restores = 0, cash = 0, hours = 0;
  bool chosen = false;
};

struct FaultFigures {
  std::string name;
  double takes_off = 0;
  bool must = false;
  std::vector<FixFigures> fixes;
};

// A step of the way to the best set of fixes: own hours as they will be taken, and all before it done.
struct WayStep {
  double own_hours = 0, gain = 0;
  std::string next;
};

struct TestFigures {
  std::string name;
  double cost = 0, gross = 0;
};

struct PlanLine {
  int depth = 0;
  std::string text;  // "no change (chance 0.5952): buy"
  double worth = 0;  // above the profit aimed at
};

struct AfterOutcome {
  std::string outcome;
  double chance = 0, walk_away = 0;
  std::string then;  // what to do
};

// Which way a case goes, in words.
struct WayRow {
  std::string cause, troubles;
  double chance = 0;
  std::string at_asking, at_walk_away;
};

struct OfferRow {
  std::string name;
  double price = 0, expected_profit = 0;
  double walk_away = 0, loss_chance = 0;  // the highest price at which all aims hold; at its price
  bool take = false;
};

struct ComparableRow {
  double price = 0;
  bool asking = true;
  double odometer = 0, year = 0, grade = 3;
  std::string note;  // which one it is, and what is to be said of it
};

// The fitted line: value for the subject, and money for one unit more of each.
struct FittedLine {
  double at_subject = 0, odometer = 0, year = 0, grade = 0;
  double subject_odometer = 0, subject_year = 0, subject_grade = 3;
  double realised = 1;  // got / asked
  double residual_sd = 0;
  double mean = 0;  // of the sound value, as used
};

struct MoveRow {
  std::string amount;
  double low_amount = 0, high_amount = 0;                      // its 10 % and 90 % point
  double low = 0, high = 0;                                    // the expected profit at these
  enum class Unit { money, time, factor } unit = Unit::money;  // of the amount; time: hours or days
};

// What the car still costs its buyer, and what that is made of: the workbook works the amount and the chance out of it.
struct HagglingRow {
  enum class Of { cause, trouble, fault, fees, opening_up, holding, selling } of = Of::fees;
  std::string what, how;  // how: of a cause, what puts it right
  // Of a cause or a trouble: the states in which it is; of a fault: which.
  std::vector<std::size_t> states = {};
  std::size_t fault = 0;
  std::vector<std::pair<std::size_t, double>> corrections = {};  // of a cause: which, and the chance of each
  double cash = 0, hours = 0;  // of a trouble, with what it takes off; of the sale
};

struct CautionText {
  std::string about, text;
};

struct AimCalled {
  std::string by, asks;  // "Limit by chance of loss", "Aim: chance of losing cash, at most"
};

struct AppraisalFigures {
  std::string tag, description, complaint;
  Currency currency;
  Day made_on;
  BookState book;
  std::string distance_unit = "mi";

  double asking = 0, fees = 0, purchase_rate = 0;
  std::vector<std::pair<double, double>> fee_bands;  // beside `fees`: from this price on this fee, rising
  double sound = 0;  // what it sells for running with every fault put right, the paper's share applied
  double pace = 1, hour = 0, hours_per_week = 1, holding_per_day = 0, money_rate = 0, sale_rate = 0;
  double bay_per_day = 0;                      // in the profit and in what is chosen, not in cash
  double opening_cash = 0, opening_hours = 0;  // hours by the estimate, before the pace
  ByAim<std::optional<double>> aims;           // what is asked; absent: no such aim
  ByAim<AimCalled> aim_words;

  std::vector<CauseOdds> causes;
  std::vector<CorrectionFigures> corrections;
  std::vector<StateFigures> states;
  std::vector<FaultFigures> faults;

  // As the model gives them, for what is asked now; the workbook must come to the same.
  double expected_cash_profit = 0, expected_profit = 0, expected_own_hours = 0, expected_days = 0,
         cash_needed = 0;
  // In the dearest case that is likely enough to count, and 19 times in 20 at most.
  double cash_worst = 0, cash_p95 = 0;
  std::string dearest;
  ByAim<std::optional<double>> limit_by;
  double walk_away = 0;
  // False where the most profitable way in each case does not hold the aims, and these figures are of the way
  // that does.
  bool most_profitable = true;
  std::optional<Verdict> verdict;    // absent where only the figures are known
  std::optional<double> with_tests;  // up to here it pays to test first; the test that comes first then
  std::optional<double> test_from;   // from here on up to there
  std::string first_test;

  std::vector<WayStep> way;  // of the fixes, from the fewest hours up; may be empty
  std::vector<OfferRow> offers;
  std::string better;  // which other offer is better than the plain one, in words; empty where none is
  std::vector<TestFigures> tests;
  std::vector<std::pair<std::string, std::string>> tests_seen;  // test, outcome
  bool plan_begins_with_test = false;
  double decide_now = 0, best_plan = 0, perfect_information = 0;
  std::vector<PlanLine> plan;
  double limit_plan_price = 0;  // the walk-away price, or a coin above it where a test pays only there
  std::vector<PlanLine> limit_plan;
  std::vector<WayRow> ways;
  std::vector<AfterOutcome> after_first_test;

  std::vector<ComparableRow> comparables;
  std::optional<FittedLine> fitted;

  double loss_chance = 0;
  std::vector<double> drawn;  // cash profits at the price asked, equally likely, rising
  std::vector<std::pair<double, double>> quantiles;  // share, cash profit: (0.05, -34)
  double spread_from = 0, spread_to = 0;             // of the cash profit
  std::vector<double> spread;  // chance of each equal step; the outer ones take what lies beyond
  std::int64_t points = 0;
  std::vector<MoveRow> moves;  // the largest swing first
  std::vector<HagglingRow> haggling;
  double hardly_possible = 0;  // a cause less likely than this is not named
  std::vector<CautionText> cautions;
  std::vector<std::string> notes;
};

}  // namespace nonrunner::figures

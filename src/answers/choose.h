// Several cars, one purse: which of them to buy at their prices so that the expected profit is highest, with
// the cash and the own hours that there are. Each is bought as it stands, by the most profitable policy that
// holds its aims (appraisal/buying.h); weights are the expected cash needed and the expected own hours, and the
// best set is found exactly (appraisal/knapsack.h). How likely a set is to overrun the purse comes from drawing
// the cars independently of each other, always from the same numbers. Doubles are opinions in the currency's
// units.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "appraisal/appraisal.h"
#include "appraisal/job.h"
#include "appraisal/purse.h"

namespace nonrunner::answers {

constexpr std::size_t cars_to_choose_max = 16;

struct CarToChoose {
  appraisal::Job job;
  double price = 0;  // in place of the price asked
};

struct ChooseLimits {
  std::optional<double> cash, hours;
};

struct ChosenSet {
  std::vector<std::size_t> cars;  // places
  double profit = 0, cash = 0, hours = 0;
  double over_cash = 0, over_hours = 0;  // chances; 0 without such a limit
};

struct ChooseAnswer {
  struct Car {
    std::string tag;
    double price = 0;
    appraisal::Verdict verdict = appraisal::Verdict::buy;
    double walk_away = 0;
    std::string first_test;                     // where one comes first
    std::optional<appraisal::FromPurse> takes;  // absent: the aims do not hold at this price
    bool is_in_question() const { return takes && verdict != appraisal::Verdict::test_first; }
  };
  Currency currency;
  ChooseLimits limits;
  std::vector<Car> cars;
  ChosenSet best;
  std::optional<ChosenSet> next_best;  // absent where there is no other set that is worth anything
  std::optional<double> with_more_cash, with_more_hours;  // what 100 more cash, 5 more hours would add
  // Where the best set overruns its purse with more than one chance in ten: the best one that does not.
  std::optional<ChosenSet> safer;
};

constexpr double more_cash = 100, more_hours = 5, overrun_accepted = 0.1;

// Throws Refusal where two cars have one tag, or one has none.
ChooseAnswer choose(const std::vector<CarToChoose>&, const ChooseLimits&, std::size_t points);

}  // namespace nonrunner::answers

// Which faults to put right before the sale, and how: for each the choice with the highest expected gain,
//   restores x E[takes_off] x (1 - sale rate) - E[cash] - E[hours] E[pace] (hour + 7 day / hours_per_week)
// against 0 for leaving it, where `day` is what a day costs: holding, the place, and the interest on what was
// paid for the car. A fault that must be put right takes its best fix even below 0. The first of
// equal ones.
#pragma once
#include <optional>
#include <vector>

#include "appraisal/job.h"

namespace nonrunner::appraisal {

// A day's interest on the price, what is paid with it, and the fees.
double interest_a_day(const Job&, double price);

double gain_of(const Job&, const Fault&, const Fix&, double interest);

struct FixChoice {
  std::vector<double> gains;       // of each fix, in the order of the file
  std::optional<std::size_t> fix;  // absent: left as it is
  double gain = 0;
};

struct FixPlan {
  std::vector<FixChoice> choices;  // one for each fault
  double cash = 0;                 // expected, as everything here
  double hours = 0;                // own, by the estimate
  double still_off = 0;            // what the faults take off the sale price after all
};

FixPlan best_fixes(const Job&, double interest);
FixPlan best_fixes(const Job&);  // at the price asked

}  // namespace nonrunner::appraisal

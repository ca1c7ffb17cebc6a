// What one car would take out of the purse and out of the week, if it is bought at a price: the policy that
// holds the aims there, what it is worth, and how the cash needed and the own hours may come out.
#pragma once
#include <optional>
#include <vector>

#include "appraisal/job.h"
#include "appraisal/sound_value.h"

namespace nonrunner::appraisal {

struct FromPurse {
  double profit = 0, cash = 0, hours = 0;  // expected
  // At equally likely chances, rising: a draw of one of them is a draw of the whole.
  std::vector<double> cash_steps, hours_steps;
};

// Absent where no policy holds the aims at this price.
std::optional<FromPurse> from_purse(const Job&, const SoundValue&, double price, std::size_t points);

}  // namespace nonrunner::appraisal

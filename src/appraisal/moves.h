// What moves the answer: for every uncertain amount the expected profit with it at its 10 % and at its 90 %
// point, all others at their means, sorted by the swing. The owner still takes the best course, source and
// fixes for the changed amount, as in the model everywhere.
#pragma once
#include <string>
#include <vector>

#include "appraisal/amounts.h"
#include "appraisal/evidence.h"
#include "appraisal/job.h"
#include "appraisal/sound_value.h"

namespace nonrunner::appraisal {

struct Move {
  std::string amount;
  double at_10 = 0, at_90 = 0;  // the amount
  double profit_at_10 = 0, profit_at_90 = 0;
  AmountUnit unit = AmountUnit::money;  // of the amount; the profit is money
};

// Amounts whose swing is zero are left out.
std::vector<Move> moves_of(const Job&, const SoundValue&, const Beliefs&, double price);

}  // namespace nonrunner::appraisal

// Every uncertain amount of a job with a name that a person recognises, e.g. "hours: skim the head (reseal
// the head)".
#pragma once
#include <functional>
#include <string>

#include "appraisal/job.h"

namespace nonrunner::appraisal {

enum class AmountUnit { money, hours, days, factor };  // a factor: the pace

// Whose it is: what it moves is then that cause, or the causes that come to that correction; else anything. And what
// it is counted in.
struct AmountOwner {
  std::optional<std::size_t> cause, correction;
  AmountUnit unit = AmountUnit::money;
};

// In the order of the file. The sound value is not among them (appraisal/sound_value.h).
void for_each_amount(Job&, const std::function<void(const std::string& name, Amount&, const AmountOwner&)>&);

}  // namespace nonrunner::appraisal

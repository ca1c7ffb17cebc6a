// Every uncertain amount of a job with a name that a person recognises, e.g. "hours: skim the head (reseal
// the head)".
#pragma once
#include <functional>
#include <string>

#include "appraisal/job.h"

namespace nonrunner::appraisal {

// Whose it is: what it moves is then that cause, or the causes that come to that correction; else anything.
struct AmountOwner {
  std::optional<std::size_t> cause, correction;
};

// In the order of the file. The sound value is not among them (appraisal/sound_value.h).
void for_each_amount(Job&, const std::function<void(const std::string& name, Amount&, const AmountOwner&)>&);

}  // namespace nonrunner::appraisal

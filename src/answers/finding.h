// What was found, in the words of the car's appraisal: names given by their number or a beginning that only one
// has become whole names, and what the appraisal does not know is refused with the nearest.
#pragma once
#include "appraisal/job.h"
#include "book/events/finding.h"

namespace nonrunner::answers {

// Throws Refusal where a name is not known, or where no cause would be left with a chance. Without an appraisal
// every name is taken as it stands.
book::Finding checked(const book::Book&, const book::Finding&);

// TEST=OUTCOME with numbers in place of names ("1=2") as names; anything else as it stands.
std::string seen_in_names(const appraisal::Job&, const std::string& given);

}  // namespace nonrunner::answers

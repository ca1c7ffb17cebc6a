// Tests that an appraisal kept before had seen, and a newer job file does not know of: they stay known.
#pragma once
#include <string>
#include <vector>

#include "appraisal/job.h"
#include "book/events/finding.h"

namespace nonrunner::answers {

// The outcomes seen in the appraisal kept last for the car, of tests that the new file has and says nothing of;
// none of them stands in a finding already.
std::vector<book::Fact> tests_to_keep(const book::Book&, const std::string& tag, const appraisal::Job& fresh);

}  // namespace nonrunner::answers

// The faults of a job as classes of choices, for the best set of fixes under limits (appraisal/knapsack.h)
// and for the way from zero hours up (appraisal/frontier.h). Hours are own hours as they will really be
// taken: the estimate x pace. Everything is an expected value; gains are those of appraisal/fixes.h.
#pragma once
#include <vector>

#include "appraisal/choice.h"
#include "appraisal/job.h"

namespace nonrunner::appraisal {

constexpr const char* leave_it = "leave it";

// One class for each fault, in the order of the job. A fault that may be left has `leave_it` as its first
// choice; the fixes follow in their order.
std::vector<ChoiceClass> fix_choices(const Job&);

// The fix that choice number `pick` of this fault is, or nothing where it is left.
const Fix* fix_of(const Fault&, std::size_t pick);

}  // namespace nonrunner::appraisal

// The way from no fixes to the best set (appraisal/frontier.h), step by step in words: for the screen and for
// the workbook.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "appraisal/choice.h"
#include "appraisal/job.h"

namespace nonrunner::words {

// The faults that are put right otherwise after the step than before it, with what is done about each:
// "headlamps yellowed: polish and seal". `before` is null at the first step.
std::vector<std::pair<std::size_t, std::string>> what_changes(const appraisal::Job&,
                                                              const std::vector<appraisal::ChoiceClass>&,
                                                              const appraisal::ChoiceSet* before,
                                                              const appraisal::ChoiceSet& after);
// All of it in one line.
std::string next_in_words(const appraisal::Job&, const std::vector<appraisal::ChoiceClass>&,
                          const appraisal::ChoiceSet* before, const appraisal::ChoiceSet& after);

}  // namespace nonrunner::words

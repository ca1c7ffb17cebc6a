// An appraisal as a person reads it: 80 columns, no colour, the answer first and largest.
//
// The first screen has the verdict, the walk-away price with the aim that sets it, and what to test first:
// seven figures at most. Then what it may be, what to name when haggling, and the risk. `detail` adds every
// course, the whole plan, the fixes, what moves the answer and the cautions in full.
#pragma once
#include <string>

#include "appraisal/appraisal.h"

namespace nonrunner::commands {

std::string as_text(const appraisal::Appraisal&, bool detail);

}  // namespace nonrunner::commands

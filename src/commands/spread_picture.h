// The spread of the cash profit as a small picture in characters: one column a step of money, the taller the
// likelier. Steps that end in a loss are drawn with another sign, and named, so that nothing depends on
// colour.
#pragma once
#include <string>

#include "appraisal/appraisal.h"

namespace nonrunner::commands {

std::string spread_picture(const appraisal::Risk&, const Currency&);

}  // namespace nonrunner::commands

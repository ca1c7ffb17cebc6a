// Which fixes pay (answers/fixes.h), said alike on every surface. Keys of the JSON text are the interface:
// they stay, others may come beside them; money is a decimal string.
#pragma once
#include <string>

#include "answers/fixes.h"

namespace nonrunner::words {

// "fix 3 of 7 faults: gain 412.50 in 6.25 own hours and 180.00 cash".
std::string in_words(const answers::FixesAnswer&, const appraisal::ChoiceSet&);
std::string to_json(const answers::FixesAnswer&);

}  // namespace nonrunner::words

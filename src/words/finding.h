// What was found on a car, in words.
#pragma once
#include <string>

#include "book/events/finding.h"

namespace nonrunner::words {

// "seen: TEST = OUTCOME"; "not there: radiator, at Cleave Yard".
std::string in_words(const book::Fact&);

}  // namespace nonrunner::words

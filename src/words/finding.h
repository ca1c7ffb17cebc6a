// What was found on a car, in words.
#pragma once
#include <string>

#include "answers/other_cause.h"
#include "book/events/finding.h"
#include "exact/currency.h"

namespace nonrunner::words {

// "seen: TEST = OUTCOME"; "not there: radiator, at Cleave Yard".
std::string in_words(const book::Fact&);
// What became of the cause that was noted before, and how both are kept.
std::string in_words(const answers::OtherCause&, const Currency&);

}  // namespace nonrunner::words

// The figures that a person may change by hand (answers/by_hand.h), in words.
#pragma once
#include <string>

#include "answers/by_hand.h"

namespace nonrunner::words {

std::string about(const answers::Changeable&);  // what it belongs to: "odds before the tests", a correction
std::string what(const answers::Changeable&);   // which it is: the name of a cause, "fuel filter, new, each"

}  // namespace nonrunner::words

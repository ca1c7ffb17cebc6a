// What comes next for a car (answers/next_step.h), in a few words.
#pragma once
#include <string>

#include "answers/next_step.h"

namespace nonrunner::words {

std::string in_words(const answers::NextStep&);

}  // namespace nonrunner::words

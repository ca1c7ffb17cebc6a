// Which purses an entry went through, in words.
#pragma once
#include <string>

#include "answers/purse.h"

namespace nonrunner::words {

// "from cash", "into bank", "20.00 USD from yard-credit, 27.16 USD from cash"; empty where none moved.
std::string in_words(const answers::MovedThrough&, const Currency&);

}  // namespace nonrunner::words

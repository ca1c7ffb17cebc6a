// Which purses an entry went through, in words.
#pragma once
#include <string>
#include <vector>

#include "answers/purse.h"

namespace nonrunner::words {

// "from cash", "into bank", "20.00 USD from yard-credit, 27.16 USD from cash"; empty where none moved.
std::string in_words(const answers::MovedThrough&, const Currency&);

// The same with the amount of each: "12.50 from cash".
std::string amounts_in_words(answers::MovedThrough, const Currency&);

// "cash is at -12.00 USD with that", for each purse that an entry left below nothing.
std::vector<std::string> below_nothing(const std::vector<answers::Moved>&, const Currency&);

}  // namespace nonrunner::words

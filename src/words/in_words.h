// Short names of what the book holds, said alike on every surface.
#pragma once
#include <string>

#include "book/questions/owed.h"

namespace nonrunner::words {

std::string in_words(const book::Owed&);  // "on account at Millgate Parts"

}  // namespace nonrunner::words

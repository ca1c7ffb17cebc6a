// The year on one page as JSON text; keys as in words/book_json.h.
#pragma once
#include <string>

#include "answers/year_sums.h"

namespace nonrunner::words {

std::string to_json(const answers::YearSums&, const Currency&);

}  // namespace nonrunner::words

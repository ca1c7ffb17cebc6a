// What was entered lately, for a form that offers it again: nothing here is a figure, and what was taken back is
// left out.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::book {

// The cars on which something was bought, booked or worked, the last first.
std::vector<std::string> cars_lately(const Book&);
// The last used first, at most 40.
std::vector<std::string> suppliers_lately(const Book&);
// What receipt lines were called, the last first, at most 8.
std::vector<std::string> bought_lately(const Book&);

}  // namespace nonrunner::book

// What the first advert of a car does to its budget: it makes the car ready, and closes every line that is open but for
// those that are said to be still to do.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::answers {

// The lines that are open in the budget of a car: "4 starter (45.00)", "9 strip (1.5 h)".
std::vector<std::string> open_in_budget(const book::Book&, const std::string& tag);

struct MadeReady {
  std::vector<std::string> closed;
  // What has to be put right before it is sold, and is closed as done though nothing was booked on it: that may be so,
  // and is worth a look.
  std::vector<std::string> nothing_booked;
};
// After the advert; `before`: what was open before it.
MadeReady made_ready(const book::Book&, const std::string& tag, const std::vector<std::string>& before);

}  // namespace nonrunner::answers

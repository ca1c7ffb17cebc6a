// What the first advert of a car does to its budget: it makes the car ready, and closes every line that is open but for
// those that are said to be still to do.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/book.h"
#include "exact/money.h"

namespace nonrunner::answers {

// A line of a car's budget that is still open: a name is one line of money, and one of work.
struct StillOpen {
  int number = 0;
  std::string name;
  bool is_work = false;
  Money if_needed;     // of money: what is to come where it is needed
  double to_come = 0;  // of work: own hours
};
inline bool is_same_line(const StillOpen& a, const StillOpen& b) {
  return a.is_work == b.is_work && a.name == b.name;
}

// Those on which anything is to come: lines of money first, each in the order of the budget.
std::vector<StillOpen> open_in_budget(const book::Book&, const std::string& tag);

struct MadeReady {
  std::vector<StillOpen> closed;
  // What has to be put right before it is sold, and was closed now as done though nothing was booked on it: that may be
  // so, and is worth a look.
  std::vector<std::string> nothing_booked;
};
// After the advert; `before`: what was open before it.
MadeReady made_ready(const book::Book&, const std::string& tag, const std::vector<StillOpen>& before);

}  // namespace nonrunner::answers

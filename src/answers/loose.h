// What was booked on a car and stands under no line of its budget, with the lines that it may belong to: gone
// through one by one, as in a book of before lines were said at entry.
#pragma once
#include <string>
#include <vector>

#include "answers/links.h"
#include "answers/question.h"
#include "book/events/assigned.h"

namespace nonrunner::answers {

struct Loose {
  book::Assign thing;  // a receipt line, an entry or an operation; its heading is still empty
  Day day;             // of a line or an entry
  std::string what;    // what it was called; the operation
  Money amount;
  std::vector<LineName> may_be;  // those that it is close to first, then the other open ones; at most nine
};
// Costs by day, then operations. Nothing where the car has no budget.
std::vector<Loose> loose_of(const book::Book&, const std::string& tag);

// Which line it is; the last two choices: under none of them, and enough for now.
Question question_of(const Loose&, const Currency&);

}  // namespace nonrunner::answers

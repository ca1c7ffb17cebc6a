// What comes next for a car: one thing, the first that applies.
//
//   considered                              it is decided
//   sold, finished, left                    its report is read
//   in pieces                               its parts are sold
//   ready                                   it is sold
//   appraised, the cause not found          the cause is looked for
//   an operation, else a thing to buy, that is needed for certain and still open
//   else                                    it is advertised
#pragma once
#include <optional>
#include <string>

#include "answers/budget.h"
#include "book/ledger/names.h"

namespace nonrunner::answers {

struct NextStep {
  enum class What { decide, report, sell_parts, sell, find_cause, work, buy, advertise } what;
  std::string name;  // of the operation or of the line
};

// Absent: nothing is planned of it. The budget is looked at of a car that is owned and not in pieces.
std::optional<NextStep> next_step(book::State, bool in_pieces, const std::optional<Budget>&);

}  // namespace nonrunner::answers

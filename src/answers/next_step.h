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

#include "book/questions/board.h"

namespace nonrunner::answers {

struct NextStep {
  enum class What { decide, report, sell_parts, sell, find_cause, work, buy, advertise } what;
  std::string name;  // of the operation or of the line
};

// Absent: nothing is planned of it. Throws Refusal where its appraisal cannot be read.
std::optional<NextStep> next_step(const book::Book&, const book::BoardRow&);

}  // namespace nonrunner::answers

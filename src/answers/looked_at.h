// A car that was looked at and not bought: what its appraisal said when it was kept, to read on the screen.
#pragma once
#include <optional>
#include <string>

#include "book/ledger/book.h"

namespace nonrunner::answers {

struct KeptVerdict {
  Day day;
  std::string verdict;         // as it was said
  std::string asked, at_most;  // decimals of the currency; empty: not told
};

// By the figures that the book kept, not worked out again. Absent where none were kept.
std::optional<KeptVerdict> kept_verdict(const book::Book&, const std::string& tag,
                                        std::optional<Day> on = {});

// Whether anything that names the car was in the book by then: an entry of that day or before, whatever became of it, or
// an appraisal. Else the first day of which there is something.
struct FirstKnown {
  bool by_then = false;
  std::optional<Day> first;  // absent: there is nothing of it at all
};
FirstKnown known_by(const book::Book&, const std::string& tag, Day on);

}  // namespace nonrunner::answers

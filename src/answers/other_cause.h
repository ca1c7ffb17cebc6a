// Of two causes noted of one car only the one of the later day counts: what the other one needs is to come no more, though
// both may be there.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/events/finding.h"
#include "exact/money.h"

namespace nonrunner::answers {

struct OtherCause {
  std::string counts, counts_no_more;
  Day found_on;               // that of the two which was noted before
  bool before_holds = false;  // it is of a later day than what is noted now
  // What only the other one needs, and was still to come.
  std::vector<std::string> lines;
  Money to_come;
  double hours_to_come = 0;
};
// What a finding that is about to be recorded does to the cause that was noted before; absent where it names none, or the same.
std::optional<OtherCause> other_cause(const book::Book&, const book::Finding&);

}  // namespace nonrunner::answers

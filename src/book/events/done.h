// Lines of a car's budget that are done, not needed, or open again; or the whole car, which is ready. A
// memorandum: what is said last holds, and a void takes it back.
//
// Refused, the first that applies:
//   1 no vehicle has the tag   2 it was sold or finished by then   3 it was not bought
//   4 no line, where it is not done that is said
#pragma once
#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

struct Done {
  Day day;
  std::string vehicle;
  std::vector<std::string> lines;  // by their names; none: the car is ready
  std::string says;                // marks.h: done, not needed, open
};
void fields(Done&, Fields&);
EntryId record(Recording&, const Done&);

}  // namespace nonrunner::book

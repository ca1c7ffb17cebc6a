// What was found on a car, in words: a memorandum.
//
// Refused:  1 the text is empty
#pragma once
#include "book/entry.h"
#include "text/table.h"

namespace nonrunner::book {

struct Finding {
  Day day;
  std::string vehicle, text;
};
Finding read_finding(const Table&);
EntryId record(Recording&, const Finding&);

}  // namespace nonrunner::book

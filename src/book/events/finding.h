// What was found on a car, in words: a memorandum.
//
// Refused, the first that applies:  1 the text is empty   2 the tag is not well formed
#pragma once
#include <optional>

#include "book/ledger/entry.h"
#include "text/table.h"

namespace nonrunner::book {

struct Finding {
  Day day;
  std::string vehicle, text;
  std::string
      cause;  // the cause that was found, as the job file calls it; empty: it says nothing of the cause
};
Finding read_finding(const Table&);
EntryId record(Recording&, const Finding&);

// The cause noted last for the car, in entries that count; empty where none was.
// `on`: as it stood at the end of that day.
std::string found_cause(const Book&, const std::string& vehicle, std::optional<Day> on = {});
// Every finding that counts, by day.
std::vector<std::pair<Day, std::string>> findings(const Book&, const std::string& vehicle);

}  // namespace nonrunner::book

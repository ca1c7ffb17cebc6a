// What was found on a car: words, and facts as its appraisal calls them: the outcome of a test, the cause, a
// cause ruled out, a trouble that is there or not, a correction that was made and failed or cured. And what was
// looked for somewhere and not there, so that nobody drives for it twice. A memorandum.
//
// Words that begin with "not there" say that by themselves ("not there: radiator, at Cleave Yard"): what they name
// becomes a fact when they are recorded.
//
// The book does not know an appraisal: whether it knows the names is looked up before (answers/finding.h).
//
// Refused, the first that applies:  1 the text is empty   2 the tag is not well formed
//   3 a fact that is not NAME=VALUE where it has to be one
#pragma once
#include <optional>

#include "book/ledger/entry.h"

namespace nonrunner::book {

class Fields;

namespace fact {
inline constexpr const char* seen = "seen";            // test, outcome
inline constexpr const char* cause = "cause";          // name
inline constexpr const char* ruled_out = "ruled out";  // cause
inline constexpr const char* trouble = "trouble";      // name, "there" or "not there"
inline constexpr const char* failed = "failed";        // correction
inline constexpr const char* cured = "cured";          // correction
inline constexpr const char* not_there = "not there";  // what was looked for in vain, where (may be empty)
inline constexpr const char* same = "same";            // what was called so before, and is now
}  // namespace fact

struct Fact {
  std::string what, name, value;
};

struct Finding {
  Day day;
  std::string vehicle, text;
  std::vector<Fact> facts;
};
void fields(Finding&, Fields&);
EntryId record(Recording&, const Finding&);

struct DatedFinding {
  Day day;
  EntryId entry = 0;
  std::string text;
  std::vector<Fact> facts;
};
// Every finding that counts, by day, then entry. `on`: as it stood at the end of that day.
std::vector<DatedFinding> findings(const Book&, const std::string& vehicle, std::optional<Day> on = {});
// The cause noted last, whatever else was found; empty where none was.
std::string found_cause(const Book&, const std::string& vehicle, std::optional<Day> on = {});

}  // namespace nonrunner::book

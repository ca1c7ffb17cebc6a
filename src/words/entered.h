// What became of an entry that a phone kept and sent: as JSON for its script.
#pragma once
#include <cstdint>
#include <string>

namespace nonrunner::words {

// {"state": "in the book" | "there already" | "refused", "entry": 38 or null, "message": "..."}
std::string entered_as_json(const std::string& state, std::int64_t entry, const std::string& message);

}  // namespace nonrunner::words

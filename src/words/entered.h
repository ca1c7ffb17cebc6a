// What became of an entry that a phone kept and sent: as JSON for its script.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

namespace nonrunner::words {

// {"state": "in the book" | "there already" | "refused", "entry": 38 or null, "message": "..."}
std::string entered_as_json(const std::string& state, std::int64_t entry, const std::string& message);

// {"missing": ["...", ...]}: of the ids that a device sent, those that this book does not have.
std::string missing_as_json(const std::vector<std::string>& ids);

}  // namespace nonrunner::words

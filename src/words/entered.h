// What became of an entry that a phone kept and sent: as JSON for its script.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "exact/day.h"

namespace nonrunner::words {

// {"state": "in the book" | "there already" | "refused", "entry": 38 or null, "message": "..."}
std::string entered_as_json(const std::string& state, std::int64_t entry, const std::string& message);

// {"missing": ["...", ...], "now": "2026-04-05T08:00:00Z", "today": "2026-04-05"}: of the ids that a device sent, those
// that this book does not have; and what time and day it is here, since a device's clock may be wrong.
std::string missing_as_json(const std::vector<std::string>& ids, const std::string& now, Day today);

}  // namespace nonrunner::words

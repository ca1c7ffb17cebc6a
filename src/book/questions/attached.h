// Photographs and scans of a car that count, oldest first.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

struct Attached {
  Day day;
  EntryId entry = 0;
  std::string name, sha256;
};
std::vector<Attached> attached_to(const Book&, const std::string& vehicle);
// Whether some entry brought a file with this SHA-256.
bool is_attached(const Book&, const std::string& sha256);

}  // namespace nonrunner::book

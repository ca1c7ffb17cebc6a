// The book's health: is every promise kept by what stands in the file now?
//
// Recomputes the chain of hashes entry by entry, adds up every entry and every account anew, asks SQLite for
// the integrity of the file and its foreign keys, compares the layout with the one this program makes, and
// looks for the attachments. Each finding is one line that names what is wrong and where. Where the machine
// fails meanwhile, that is no finding: SQLite::Exception.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

struct Health {
  bool sound = true;
  std::vector<std::string> findings;
  std::vector<std::string>
      notes;  // what is no damage and worth knowing: files beside the book that nothing names
  EntryId entries = 0;
  std::int64_t postings = 0;
  int attachments = 0;
  Money trial_balance;
  std::string head;  // hash of the last entry, hexadecimal: write it down, and a rewritten book cannot pass
                     // for this one
};
Health check(const Book&, const std::function<void(EntryId, EntryId)>& tick = {});

}  // namespace nonrunner::book

// The seal of an entry as people write it down.
#pragma once
#include <string>

#include "book/ledger/entry.h"

namespace nonrunner::book {

std::string hex(const Hash&);

// 64 hexadecimal digits; empty where there is no such entry.
std::string seal_of(const Book&, EntryId);

}  // namespace nonrunner::book

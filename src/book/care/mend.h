// A new book out of one that cannot be read, shown or written to any more: its events entered anew, one by
// one, by the rules of today. What cannot be read or is refused now is left out; what was not text is
// replaced. The old book is not touched: a copy of it is read.
//
// What was taken over and what was not is listed, one line each.
//
// Refused: 1 something is at the new place already   2 what it comes from is no book
#pragma once
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

struct Mended {
  EntryId entries = 0, of = 0;  // in the new book, in the old one
  std::vector<std::string> changes;
};
// `now` and `today` as a Recording has them.
Mended mend(const std::filesystem::path& from, const std::filesystem::path& to, const std::string& now,
            Day today, const std::function<void(std::size_t, std::size_t)>& tick = {});

}  // namespace nonrunner::book

// A list of receipts as CSV (care/receipts_csv.h) taken in: a paper that is there already, with the same
// total, is passed over, so that a list that has grown since is taken in again; a list that was taken in as
// it stands adds nothing, by its SHA-256.
#pragma once
#include <functional>
#include <iosfwd>
#include <string>

#include "book/ledger/entry.h"

namespace nonrunner::book {

struct TakenIn {
  int added = 0, there_already = 0;
  bool before = false;  // this very list was taken in before
};
// `again`: each is another paper, though it looks like one that is there. `tick` is called with the rows done
// and the lines in all; keeping the recording is the caller's. The stream is read twice. Throws Refusal
// `file:row: what`, also where a paper is there with another total.
TakenIn take_in_receipts(Recording&, std::istream&, const std::string& file, bool again,
                         const std::function<void(std::size_t, std::size_t)>& tick = {});

}  // namespace nonrunner::book

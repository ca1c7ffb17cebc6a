// A list of receipts as CSV (care/receipts_csv.h) taken in. Each paper is told of: added; there already, with the same
// total, so that a list that has grown since is taken in again; in the place of the one quick line that it agrees with
// to the cent; or left out, where it may be the paper of a quick line and that is not certain (questions/alike.h): then
// it has to be said, by its row. A list that was taken in as it stands adds nothing, by its SHA-256.
#pragma once
#include <functional>
#include <iosfwd>
#include <string>
#include <vector>

#include "book/care/receipts_csv.h"
#include "book/ledger/entry.h"

namespace nonrunner::book {

struct TakenPaper {
  enum class What { added, replaced, there, left_out };
  What what = What::added;
  int row = 0;  // of its first line
  Day day;
  std::string supplier, number;
  Money total;
  EntryId entry = 0;     // it is there, or added, as this one; left out: 0
  std::string replaces;  // the entry whose place it took; left out: those whose place it may take, "38,39"
};
struct TakenIn {
  int added = 0, there_already = 0;
  bool before = false;  // this very list was taken in before; then only what was left out is told of
  std::vector<TakenPaper> papers;
};
struct HowTaken {
  bool again = false;             // each is another paper, though it looks like one that is there
  int row = 0;                    // only the paper that begins in this row; 0: all
  std::vector<EntryId> replaces;  // of that one paper
  CsvShape shape = {};            // where the list is of somebody else's making
};
// `tick` is called with the rows done and the lines in all; keeping the recording is the caller's. The stream is read
// twice. Throws Refusal `file:row: what`, also where a paper is there with another total.
TakenIn take_in_receipts(Recording&, std::istream&, const std::string& file, const HowTaken&,
                         const std::function<void(std::size_t, std::size_t)>& tick = {});

}  // namespace nonrunner::book

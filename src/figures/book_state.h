// What a book was when something was made of it: printed in the foot of workbooks, so that a paper in a
// drawer can be held against the book it came from. The seal written down elsewhere is what shows a chain
// that was made anew.
#pragma once
#include <cstdint>
#include <string>

namespace nonrunner::figures {

struct BookState {
  std::int64_t last_entry = 0;  // 0: none, or made without a book
  std::string seal;             // of that entry; empty without one
  std::string version;          // of the program
  std::string paper_size;       // "a4", "letter", or "" for the one that goes with the currency
};

}  // namespace nonrunner::figures

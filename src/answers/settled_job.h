// A job file in which every "own" has become figures, and [value] from = "book" the rows themselves: the
// text that is appraised and kept, so that a kept appraisal stays as it stood. Lines keep their numbers, so
// that messages stay right.
//
//   [shop] pace, [sale] realised, [sale] days   "own", or ["own", low, likely, high]: what it is shrunk from
//   [[cause]] odds                              "own", or ["own", odds]; of all causes or of none
//
// Own figures are shrunk towards the stated ones (else common practice, resale/own_amount.h; odds: all
// alike) by the number of cars. Both are shown.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::answers {

struct SettledJob {
  std::string text;
  std::vector<std::string> notes;  // one line for each "own": the stated figure, the own one, what was taken
};

// `book` may be absent where the file needs none; throws Refusal at the line that does. Only cars sold before
// `day` count. A file that cannot be read is given back as it is: whoever reads it says what is wrong.
SettledJob settled_job(const std::string& text, const std::string& name, const book::Book* book, Day day);

// The same with no car at all: what is believed beforehand.
std::string with_common_practice(const std::string& text, const std::string& name);

}  // namespace nonrunner::answers

// Comparables as CSV, or as copied out of a spreadsheet (cells parted by tabs): a heading with the columns
// below in any order, or no heading and the first seven in this order. Those marked * must be there.
//
//   price*      an amount above 0
//   kind*       asking or sold; the heading may also be "asking|sold"
//   odometer*   in the book's unit
//   year*       of the model
//   grade       1 rough .. 5 spotless, else 3
//   date        when it was seen, YYYY-MM-DD, else today
//   note        anything
//   model       words that a car's description has to have, else what --model says
#pragma once
#include <string>
#include <vector>

#include "book/events/comparables.h"

namespace nonrunner::book {

// Throws Refusal `file:row: what`.
std::vector<book::KeptComparable> read_comparables_csv(const std::string& text, const std::string& name,
                                                       const Currency&, const std::string& model, Day today);

}  // namespace nonrunner::book

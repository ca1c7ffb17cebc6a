// What a line of a receipt is to the shop, where nobody says it: the one rule by which every way of typing a line
// goes. The shop's own accounts tell it (tools, owner, overhead); else the line of the car's budget that it stands
// under, by what was said or by its own words; else it is taken for a part, which is a guess. What a file holds says
// it itself.
#pragma once
#include <string>

#include "appraisal/estimate.h"
#include "book/ledger/book.h"

namespace nonrunner::answers {

// As a receipt line calls it: part, consumable, sublet, fee; tool, private, overhead. `to`: the car, or tools, owner,
// overhead. `under`: the line of the budget by number or name; empty: by its own words.
std::string line_kind(const book::Book&, const std::string& to, const std::string& what,
                      const std::string& under = "");
// What a line of an estimate is as a line of a receipt.
const char* line_kind(appraisal::EstimatedLine::Kind);

}  // namespace nonrunner::answers

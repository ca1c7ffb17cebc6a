// The shopping workbook: what to buy for which vehicle, by place, with a box to tick and room for the price
// paid.
//
// Sheets: Shopping (the first page: what it comes to), Yard, Counter, Ordered, and Not there for what was
// looked for in vain. Throws MachineFailure where the file cannot be written, std::logic_error where a
// vehicle's lines and what stands beside them do not add up to its cost to complete.
#pragma once
#include <filesystem>

#include "figures/shopping.h"

namespace nonrunner::reports {

using namespace figures;

void write_shopping(const ShoppingFigures&, const std::filesystem::path& out);

}  // namespace nonrunner::reports

// The shopping workbook: what to buy for which vehicle, by place, with a box to tick and room for the price
// paid, for a clipboard and a pencil.
//
// Sheets: Shopping (the first page: what it comes to, the cash to take along), one portrait list for Yard,
// Counter and Ordered, grouped by car, Cars (the lists against each car's cost to complete), NotThere for
// what was looked for in vain, Inputs. A tick or a price typed in moves the totals; a price typed as text
// makes an error of them, never a zero. Nothing that is written here is in the book. Throws MachineFailure
// where the file cannot be written, std::logic_error where a vehicle's lines and what stands beside them do
// not add up to its cost to complete.
#pragma once
#include <filesystem>

#include "figures/shopping.h"

namespace nonrunner::reports {

using namespace figures;

void write_shopping(const ShoppingFigures&, const std::filesystem::path& out);

}  // namespace nonrunner::reports

// The profit workbook: what one vehicle brought, for the owner beside the car and the accountant in spring.
//
// The figures come from the book; the workbook adds them up again in formulas, so that a changed sale price,
// hour or price of a part answers at once. Sheets: Result (the first page), Account, Money, Hours, Log,
// Variance, VarianceMoney, VarianceHours, Cash, Price, Entries, Inputs. Throws MachineFailure where the file
// cannot be written, std::logic_error where the lines do not add up to the cash profit that the book gives,
// or the variances not to what it differs by.
#pragma once
#include <filesystem>

#include "figures/profit.h"

namespace nonrunner::reports {

using namespace figures;

// `to_read`: for a bank or a buyer: Result, Money and Entries alone, nothing of them an input.
void write_profit(const ProfitFigures&, const std::filesystem::path& out, bool to_read = false);

}  // namespace nonrunner::reports

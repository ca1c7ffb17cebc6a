// The year workbook: what the shop did in a year, for the owner and for whoever prepares the taxes. It is no
// tax advice and says so.
//
// Sheets: Year (the first page), Account, Months, Vehicles, Brought, Pieces, Bought, Helpers, Sales, SalesLimit,
// Capital, Purses, Shelf, Due, Owed, Tools, Overhead, NoPaper, Trips, Entries, Trial, Inputs. The figures
// come from the book; totals and checks are formulas over them, and the checks of the first page hold what
// was made of months, of cars and of the ledger's accounts against each other. Throws MachineFailure where
// the file cannot be written and std::logic_error where the figures contradict each other: opening + added -
// recovered
// - closing is not the cost of sales, a purse does not come to its balance, the trial balance is not zero, or
// vehicles, months and the result disagree.
#pragma once
#include <filesystem>

#include "figures/year.h"

namespace nonrunner::reports {

using namespace figures;

void write_year(const YearFigures&, const std::filesystem::path& out);

}  // namespace nonrunner::reports

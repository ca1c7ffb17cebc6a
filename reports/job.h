// The job workbook: a vehicle in work. Budget against actual by operation and part, cost to complete,
// break-even now, what is due back, hours. The budget is the appraisal in force at purchase.
//
// Sheets: Job (the first page), Account, Costs, Hours, Due, Findings, Inputs. Throws MachineFailure where the file
// cannot be written, std::logic_error where the lines do not add up to the cost, or the sheet's sums to the
// break-even price, that the book gives.
#pragma once
#include <filesystem>

#include "figures/job.h"

namespace nonrunner::reports {

using namespace figures;

void write_job(const JobFigures&, const std::filesystem::path& out);

}  // namespace nonrunner::reports

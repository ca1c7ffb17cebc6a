// The [[correction]] tables of a job file.
#pragma once
#include <vector>

#include "appraisal/job.h"
#include "appraisal/names.h"
#include "text/table.h"

namespace nonrunner::appraisal {

// In the order of the file; `otherwise` resolved, and refused where it leads back to itself. `names` gets
// their names.
std::vector<Correction> read_corrections(const Table& root, const Currency&, Names& names);

}  // namespace nonrunner::appraisal

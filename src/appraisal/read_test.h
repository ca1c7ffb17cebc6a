// The [[test]] tables of a job file.
#pragma once
#include <vector>

#include "appraisal/job.h"
#include "appraisal/names.h"
#include "text/table.h"

namespace nonrunner::appraisal {

std::vector<Test> read_tests(const Table& root, const Currency&, const Names& causes, const Names& troubles);

}  // namespace nonrunner::appraisal

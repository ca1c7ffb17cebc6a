// Every table of a job file with its keys. The readers take from here what may stand in a table; the reference is
// printed from it.
#pragma once
#include <string_view>

#include "text/file_keys.h"

namespace nonrunner::appraisal {

const std::vector<FileTable>& job_tables();  // in the order in which one writes them
// The keys of the table called `name` ("deal"); it is one of job_tables().
std::vector<std::string> job_keys(std::string_view name);

}  // namespace nonrunner::appraisal

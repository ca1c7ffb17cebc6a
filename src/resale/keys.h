// The keys of comparables and of the beliefs about them, in a job file.
#pragma once
#include "text/file_keys.h"

namespace nonrunner::resale {

const FileTable& comparable_keys();  // [[comparable]]
const FileTable& slope_keys();       // [value.slopes]

}  // namespace nonrunner::resale

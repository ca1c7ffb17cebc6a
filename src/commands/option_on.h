// --on DAY: as it stood at the end of that day.
#pragma once
#include "commands/options.h"

namespace nonrunner::commands {

inline Option on_option() { return {"on", "DAY", "as it stood at the end of that day (else now)"}; }

}  // namespace nonrunner::commands

// The purse that paid a receipt line's paper: where a refund goes unless it is said.
#pragma once
#include <string>

#include "book/line.h"

namespace nonrunner::commands {

std::string purse_of_line(const book::Book&, const book::Line&);

}  // namespace nonrunner::commands

// What is due, as it is called on every screen and in every workbook: "core of starter".
#pragma once
#include <string>

#include "figures/due.h"

namespace nonrunner::words {

std::string called(figures::DueKind, const std::string& what);
inline std::string called(const figures::Due& due) { return called(due.kind, due.what); }

}  // namespace nonrunner::words

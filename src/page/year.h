// A year as a path or a file names it.
#pragma once
#include <string>

#include "exact/day.h"

namespace nonrunner::page::rooms {

int year_of(const std::string& text, Day today);  // throws Refusal for what is no year, or one to come

}  // namespace nonrunner::page::rooms

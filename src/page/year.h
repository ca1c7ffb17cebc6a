// A year as a path or a file names it.
#pragma once
#include <string>

namespace nonrunner::page::rooms {

int year_of(const std::string& text);  // throws Refusal for what is no year

}  // namespace nonrunner::page::rooms

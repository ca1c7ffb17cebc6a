// What the figures of a year are called.
#pragma once
#include <string>

#include "figures/year.h"

namespace nonrunner::reports {

std::string in_words(const figures::YearBought&);  // "parts, salvage"
std::string in_words(figures::YearOwed::Kind);     // "on account"

}  // namespace nonrunner::reports

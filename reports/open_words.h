// What is still open on a car (figures/open.h), in words.
#pragma once
#include <string>
#include <vector>

#include "exact/currency.h"
#include "figures/open.h"

namespace nonrunner::reports {

std::vector<std::string> in_words(const std::vector<figures::Open>&, const Currency&);
// In one line; empty where none waits.
std::string in_words(const std::vector<figures::WaitingPaper>&, const Currency&);

}  // namespace nonrunner::reports

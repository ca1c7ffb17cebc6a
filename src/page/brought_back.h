// What is to come back and what may still go back, each with its form: for the room at home, and for the device that takes
// it along.
#pragma once
#include <vector>

#include "page/visit.h"
#include "words/away.h"

namespace nonrunner::page {

std::vector<words::BackForm> to_bring_back(const Visit&);  // by last day
std::vector<words::BackForm> that_may_go_back(const Visit&);

}  // namespace nonrunner::page

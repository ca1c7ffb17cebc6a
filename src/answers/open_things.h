// What is still open on a car, for its workbooks.
#pragma once
#include <vector>

#include "book/questions/figures.h"
#include "figures/open.h"

namespace nonrunner::answers {

// Papers that are waited for and a deposit that is held.
std::vector<figures::Open> waiting_things(const book::VehicleFigures&);
// What is due before them.
std::vector<figures::Open> open_things(const book::VehicleFigures&);

}  // namespace nonrunner::answers

// A year on the screen: its first page, and the cars of it.
#pragma once
#include <string>

#include "answers/year_sums.h"
#include "commands/options.h"

namespace nonrunner::commands {

int year_typed(const Given&, const std::string& text, Day today);  // throws WrongUsage
int list_cars(const Given&, Terminal&);                            // every car, as `vehicles` has them
std::string cars_of_year(const answers::YearSums&, const Currency&);

}  // namespace nonrunner::commands

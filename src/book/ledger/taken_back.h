// On which day a reversal takes effect.
#pragma once
#include <string>

namespace nonrunner::book {

// SQL for that day of the reversal `v`, an entry of a query (a name such as "v"): its own; in a book of an older layout
// that of the full paper which took the place of a quick line, where it is the later (the view `counted` says the same).
std::string taken_back_on(const std::string& v);

}  // namespace nonrunner::book

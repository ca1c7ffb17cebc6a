// Where the walk-away price rests on another policy than the most profitable one: which cases go which way up to it.
#pragma once
#include <string>

#include "appraisal/appraisal.h"

namespace nonrunner::words {

// "Up to 500.00 if "head gasket" without rust means scrap; what brings more risks more than you accept." Compared is the
// whole way of a case, along its chain; the likeliest are named. Empty where every case goes its most profitable way.
std::string other_way_in_words(const appraisal::Appraisal&);

}  // namespace nonrunner::words

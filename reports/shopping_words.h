// What a shopping list says of its lines, alike in the workbook and on the page.
#pragma once
#include <string>

#include "figures/shopping.h"

namespace nonrunner::reports {

// "only if "reseal the head" does not hold, 15 %"; empty where it is certain.
std::string when_needed(const figures::ShoppingLine&, const Currency&);
std::string in_words(const figures::WaitingReceipt&, const Currency&);

}  // namespace nonrunner::reports

// "--fee title=62" and "--cost advert=20@card" as named amounts.
#pragma once
#include <vector>

#include "book/events/named_amount.h"
#include "commands/options.h"

namespace nonrunner::commands {

std::vector<book::NamedAmount> named_amounts(const Given&, const std::string& option,
                                             const Currency&);  // throws WrongUsage

}  // namespace nonrunner::commands

// Digits in groups of three, as people read large numbers.
#pragma once
#include <string>

namespace nonrunner {

std::string grouped(std::string number);  // "-1250.50" as "-1,250.50", "20992" as "20,992"

}  // namespace nonrunner

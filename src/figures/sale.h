// A sale as the book has it, and with what its papers name.
#pragma once
#include <string>

#include "exact/day.h"
#include "exact/money.h"

namespace nonrunner::figures {

struct Sale {
  Day day;
  std::string tag;
  Money price;
  std::string description = {}, vin = {}, buyer = {}, odometer = {};  // where they are known
};

}  // namespace nonrunner::figures

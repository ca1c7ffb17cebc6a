// A trip as it was entered, and as the year shows it.
#pragma once
#include <cstdint>
#include <string>

#include "exact/day.h"
#include "exact/thousandths.h"

namespace nonrunner::figures {

struct Trip {
  Day day;
  std::string vehicles,
      why;  // vehicles: with the distance of each where there are several, "osprey 15, teal 30"
  Distance distance;
  std::string where = {};  // from - to, as far as it was said
  std::int64_t entry = 0;
  bool taken_back =
      false;  // one of an earlier year that was taken back in this one: its distance is below zero
};

}  // namespace nonrunner::figures

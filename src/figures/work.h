// Hours at a car as one entry has them, own and paid.
#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

#include "exact/day.h"
#include "exact/thousandths.h"

namespace nonrunner::figures {

// What a line of money or hours stands under in a ProfitEstimate, each by its place: a line that was expected, or a
// heading of one's own. Neither: under none.
struct UnderEstimate {
  std::optional<std::size_t> line = {}, heading = {};
};

struct Work {
  Day day;
  std::string operation;
  Hours own, paid;
  bool after_sale = false;
  UnderEstimate under = {};
  std::int64_t entry = 0;
};

}  // namespace nonrunner::figures

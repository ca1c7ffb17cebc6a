// Names that stand for a line of every car's budget, appraised or not: what is expected there comes from the deal, the
// cause and the sale, so that nothing else is called so.
#pragma once
#include <string_view>

namespace nonrunner::figures {

namespace every_budget {
inline constexpr const char* fees = "fees";
inline constexpr const char* opening_up = "opening up";
inline constexpr const char* pulling_parts = "pulling parts";
inline constexpr const char* readying = "readying";
}  // namespace every_budget

constexpr bool is_in_every_budget(std::string_view name) {
  return name == every_budget::fees || name == every_budget::opening_up ||
         name == every_budget::pulling_parts || name == every_budget::readying;
}

}  // namespace nonrunner::figures

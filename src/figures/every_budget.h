// Names that stand for a line of every car's budget, appraised or not: what is expected there comes from the deal, the
// cause and the sale, so that nothing else is called so.
#pragma once
#include <algorithm>
#include <array>
#include <string_view>

namespace nonrunner::figures {

namespace every_budget {
inline constexpr const char* fees = "fees";
inline constexpr const char* opening_up = "opening up";
inline constexpr const char* pulling_parts = "pulling parts";
inline constexpr const char* readying = "readying";
inline constexpr const char* parting_out = "parting out";  // of a car in pieces
}  // namespace every_budget

inline constexpr std::array names_in_every_budget = {every_budget::fees, every_budget::opening_up,
                                                     every_budget::pulling_parts, every_budget::readying,
                                                     every_budget::parting_out};
constexpr bool is_in_every_budget(std::string_view name) {
  return std::ranges::find(names_in_every_budget, name) != names_in_every_budget.end();
}

}  // namespace nonrunner::figures

// The usual cautions, in general words: local rules and licensed people decide.
#pragma once
#include <array>

namespace nonrunner::reports::cautions {

inline constexpr std::array of_a_profit = {
    "No tax advice and no legal advice. Local law decides what is income, which costs count, how long papers "
    "are kept, and from how many sales "
    "in a year a person needs a dealer's licence: ask the tax office or an accountant.",
    "Before a vehicle changes hands: title, liens and the odometer statement by the rules of the place, and "
    "say what you know of its faults.",
};

inline constexpr std::array of_an_appraisal = {
    "Expected values from what was entered, no promise: a second trouble that nobody looked for can cost "
    "more than the whole profit. Look at the title, the "
    "liens, rot and warning lamps before money moves.",
    "Work under a lifted car, on fuel, hot coolant, springs, airbags, air conditioning and high voltage can "
    "maim and kill: the maker's instructions, local "
    "rules and licensed people come first. See the sheet Cautions.",
};

}  // namespace nonrunner::reports::cautions

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

inline constexpr std::array of_a_year = {
    "No tax advice and no legal advice: what is income, what is a cost, how an inventory is valued, and from "
    "how many sales a person is a dealer, local law "
    "decides. Hand this to an accountant with the papers.",
};

inline constexpr std::array of_a_job = {
    "Work under a lifted car, on fuel, hot coolant, springs, airbags, air conditioning and high voltage can "
    "maim and kill: the maker's instructions, local "
    "rules and licensed people come first.",
};

inline constexpr std::array of_shopping = {
    "At a yard: closed shoes, gloves and eye protection, never under a car that is not on stands, and by the "
    "yard's own rules. Airbags, belts and brake parts "
    "from a yard only where local rules allow them.",
};

}  // namespace nonrunner::reports::cautions

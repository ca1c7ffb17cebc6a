// The usual cautions, in general words: local rules and licensed people decide.
#pragma once
#include <array>

namespace nonrunner::reports::cautions {

constexpr std::array of_a_profit = {
    "No tax advice and no legal advice. Local law decides what is income, which costs count, how long papers "
    "are kept, and from how many sales "
    "in a year a person needs a dealer's licence: ask the tax office or an accountant.",
    "Before a vehicle changes hands: title, liens and the odometer statement by the rules of the place, and "
    "say what you know of its faults.",
};

}  // namespace nonrunner::reports::cautions

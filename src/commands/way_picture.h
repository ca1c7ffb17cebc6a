// A small picture in characters of what own hours earn: one column for a span of hours, its height the best
// gain at that budget, a letter where a step of the way comes in.
#pragma once
#include <string>
#include <vector>

#include "appraisal/choice.h"

namespace nonrunner::commands {

// `width` columns by `height` rows, with the gain on the left edge and the hours below; at most 80 columns in
// all. `lowest` and `highest` are the labels of the lowest and highest row. Empty where there is nothing to
// draw: fewer than two sets.
std::string picture_of_way(const std::vector<appraisal::ChoiceSet>& frontier,
                           const std::vector<appraisal::ChoiceSet>& steps, const std::string& lowest,
                           const std::string& highest, std::size_t width = 56, std::size_t height = 9);

}  // namespace nonrunner::commands

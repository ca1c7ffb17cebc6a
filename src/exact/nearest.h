// The nearest known word to one that is not known, for messages: typing errors are the commonest mistakes.
// Distance: insertions, deletions, substitutions and swaps of neighbours (optimal string alignment).
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace nonrunner {

std::size_t word_distance(std::string_view, std::string_view);
// Absent where nothing is near: farther than a third of the word's length (at least 1, at most 3).
std::optional<std::string> nearest(std::string_view word, const std::vector<std::string>& known);
// `, did you mean "wait_days"?` or nothing.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& known);

}  // namespace nonrunner

// Text of somebody else on a line of ours: it moves no cursor and breaks no line.
#pragma once
#include <string>
#include <string_view>

namespace nonrunner {

// Without control characters: a blank for each.
std::string printable(std::string text);
std::size_t shown_width(std::string_view utf8);  // characters, not bytes
// Printable, and at most `width` characters: what does not fit ends in "...".
std::string cut_to(const std::string& utf8, std::size_t width);

}  // namespace nonrunner

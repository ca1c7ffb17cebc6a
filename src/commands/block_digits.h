// A number drawn large, five lines high, so that it is seen first; on a screen too narrow for it, as it is. Digits,
// ',', '.' and '-'; plain characters only.
#pragma once
#include <string>
#include <string_view>

namespace nonrunner::commands {

// Each line begins with `indent` blanks and ends with a line feed. Signs that have no picture are left out.
std::string block_digits(std::string_view number, std::size_t indent);

}  // namespace nonrunner::commands

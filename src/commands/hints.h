// Hints (exact/hint.h) in the words of a shell: what to type.
#pragma once
#include <exception>
#include <string>

#include "exact/hint.h"

namespace nonrunner::commands {

// As it follows the message: "; what the other courses bring: nonrunner go-on pip --cause \"worn pump\"".
std::string in_shell_words(const Hint&);
// The message with what its hint says, if it has one.
std::string with_hint(const std::exception&);

}  // namespace nonrunner::commands

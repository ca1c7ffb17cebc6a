// What an installation lays down beside the program, made from the table of the commands so that it cannot say
// anything else than they do: the manual page and the completions of three shells. Called by the build
// (`nonrunner help --man`, `nonrunner help --completion SHELL`).
#pragma once
#include <string>

namespace nonrunner::commands {

std::string man_page();                            // section 1, in the macros of man(7)
std::string completion(const std::string& shell);  // bash, zsh or fish; throws WrongUsage for another

}  // namespace nonrunner::commands

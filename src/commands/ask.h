// Puts a question to whoever sits at the terminal.
#pragma once
#include <optional>

#include "answers/question.h"
#include "commands/terminal.h"

namespace nonrunner::commands {

// The place among its choices of the answer that was typed. Asked again until it is one; throws Refusal where
// nobody is there, naming the options, and where the input ends.
std::size_t ask(const answers::Question&, Terminal&);

// What may be there already: true where it was asked about, and is another one. Throws Refusal where it is left out.
bool is_another_one(const std::optional<answers::Question>&, Terminal&);

// "--replaces 38", as the command line spells an option.
std::string as_option(const answers::Choice&);

}  // namespace nonrunner::commands

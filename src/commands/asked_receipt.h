// A whole paper, asked for line by line by whoever sits at the terminal: supplier, number, day, lines, tax, total, purse.
//
// Each answer is kept in a draft beside the book as soon as it is given (BOOK.draft-LOGIN, readable by its owner only):
// whatever ends the program, the next call goes on where it stopped. "<" goes back a step. The draft holds answers as
// they were understood (a name, not its number in a list), each with the question that it answers; one that does not
// fit any more, and what follows it, is asked anew.
#pragma once
#include <filesystem>

#include "book/events/receipt.h"
#include "commands/options.h"
#include "commands/terminal.h"

namespace nonrunner::commands {

// Throws Refusal where the input ends or the paper is not to be kept; the draft stays then.
book::Receipt asked_receipt(const Given&, Terminal&, const book::Book&);
// To be called when the paper is in the book.
void forget_draft(const Terminal&, const book::Book&);

}  // namespace nonrunner::commands

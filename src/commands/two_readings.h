// `receipt wren 12 --supplier Cleave Yard`: the thing "Yard" from Cleave, or a supplier of two words?
#pragma once
#include "book/ledger/book.h"
#include "commands/options.h"

namespace nonrunner::commands {

// Throws WrongUsage with both ways of writing it, unless the value alone is a supplier or purse that the book knows and
// none that it knows goes on with the word behind it; of other options a value with a digit ("3071", "4") is one word.
void expect_one_meant(const Given&, const book::Book&);
// How the words were taken where they could be taken otherwise: "the supplier is Cleave, the words are \"hoses\"";
// empty where there was one reading.
std::string reading_taken(const Given&);

}  // namespace nonrunner::commands

// Names that are asked about before they are taken: one that is a slip of a known one, and a purse that gives money
// and was never there. Typed as a command they are refused with what was probably meant; in a file they are remarked
// on.
#pragma once
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

// Remarks on a new word; throws Refusal where it was typed and is one letter off a known one, both of `least` letters or
// more, and more than a number apart.
void weigh_new_word(Recording&, const std::string& event, const char* what, const std::string& word,
                    const std::vector<std::string>& known, std::size_t least);
// Typed as a command, a purse out of which money is moved has to be there. Throws Refusal where it is not.
void know_purse(const Recording&, const std::string& event, const std::string& purse);
// A supplier is known by its papers, and one that is new is remarked on only where it is near a known one.
void weigh_supplier(Recording&, const std::string& event, const std::string& supplier);

}  // namespace nonrunner::book

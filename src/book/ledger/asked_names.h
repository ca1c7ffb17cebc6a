// Names that are asked about before they are taken: one that is a slip of a known one, and a purse that gives money
// and was never there. Typed as a command they are refused with what was probably meant; in a file they are remarked
// on.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "book/ledger/entry.h"

namespace nonrunner::book {

// The known name that another one is a slip of, both of three letters or more; absent where it is known itself.
std::optional<std::string> slip_of_name(const std::string& name, const std::vector<std::string>& known);
// Remarks on a new word; throws Refusal where it was typed and is one letter off a known one, both of `least` letters or
// more, and more than a number apart.
void weigh_new_word(Recording&, const std::string& event, const char* what, const std::string& word,
                    const std::vector<std::string>& known, std::size_t least);
// Typed as a command, a purse out of which money is moved has to be there. Throws Refusal where it is not.
void know_purse(const Recording&, const std::string& event, const std::string& purse);
// A supplier is known by its papers, and one that is new is remarked on only where it is near a known one.
void weigh_supplier(Recording&, const std::string& event, const std::string& supplier);

}  // namespace nonrunner::book

// A receipt of one line, as it is typed in the yard: which car, how much, a word. It counts at once and waits in the
// tray for its paper, unless it is all there is to it.
#pragma once
#include <string>

#include "book/events/receipt.h"

namespace nonrunner::book {

// `head` says when, from whom and of what kind the paper is, `line` what was bought: its amount is what was paid, tax
// included, a core comes on top. `to`: a car's tag, or tools, owner, overhead, which say the kind of the line where
// it says none of its own (part); with the kind stock the item on the shelf. Gives the whole receipt but who paid.
Receipt quick_line(Receipt head, ReceiptLine line, const std::string& to);

}  // namespace nonrunner::book

// Which purse, where none was said: the book's only one; else the one last used with this supplier; else the one
// last used by an event of this kind; else it is asked. Where nobody can be asked: the only one, else it is
// refused, as a file or a script is run on a book whose state it never saw.
#pragma once
#include <optional>
#include <string>

#include "answers/question.h"
#include "book/ledger/book.h"

namespace nonrunner::answers {

// In a book without a purse it is cash.
std::optional<std::string> only_purse(const book::Book&);
std::optional<std::string> last_purse(const book::Book&, const std::string& event,
                                      const std::string& supplier);
// With the option `purse`.
Question which_purse(const book::Book&, const std::string& event);

// "from cash", "into bank", "20.00 USD from yard-credit, 27.16 USD from cash": what an entry moved through purses;
// empty where it moved nothing through them.
std::string through_purses(const book::Book&, std::int64_t entry);

}  // namespace nonrunner::answers

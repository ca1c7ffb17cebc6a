// Which purse, where none was said: the book's only one; else the one last used with this supplier; else the one
// last used by an event of this kind; else it is asked. Where nobody can be asked: the only one, else it is
// refused, as a file or a script is run on a book whose state it never saw.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "answers/question.h"
#include "book/ledger/book.h"

namespace nonrunner::answers {

// In a book without a purse it is cash.
std::optional<std::string> only_purse(const book::Book&);
std::optional<std::string> last_purse(const book::Book&, const std::string& event,
                                      const std::string& supplier);
// The one out of which the deposit on this tool was paid, the last time.
std::optional<std::string> purse_of_deposit(const book::Book&, const std::string& tool);
// With the option `purse`.
Question which_purse(const book::Book&, const std::string& event);

// What an entry moved through purses, into them above zero; one whose sums make up for each other is left out.
struct Moved {
  std::string purse;
  Money amount;
};
struct MovedThrough {
  std::vector<Moved> moved;
  bool in_several = false;  // purses that it names: then the amount of each is worth saying
};
MovedThrough through_purses(const book::Book&, std::int64_t entry);
// The purses that it took money out of and that hold less than nothing now, with what they hold; cards may.
std::vector<Moved> overdrawn(const book::Book&, std::int64_t entry);

}  // namespace nonrunner::answers

// Where a book that an older version began differs from what its export makes: told apart by whether its age is why.
//
// By age: entries of the older layout are entered by today's rules. A quick line gives its place on the earlier of both
// days; the average of a shelf follows days, which brings entries `average` of its own and makes later draws cost
// something else; what money was for is posted otherwise.
// Not by age, and told as such: what is in purses, owed, held as a deposit or the owner's own; every later entry, but for
// what it costs off a shelf whose average is another one; settings, comparables, appraisals, headings, names of files.
// Entries are compared by their place among those that do not come by themselves.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "book/ledger/book.h"

namespace nonrunner::book {

struct OlderApart {
  std::vector<std::string> by_age, later;  // one line for each table, and one for each account that is by age
};
OlderApart older_apart(const Book&, const Book& again,
                       const std::function<void(std::size_t, std::size_t)>& tick);

}  // namespace nonrunner::book

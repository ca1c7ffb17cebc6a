// What a workbook says of the book that it was made from.
#include "answers/book_state.h"

#include "answers/pip.h"
#include "book/ledger/seal_of.h"
#include "book/ledger/settings.h"

using namespace nonrunner;
using namespace nonrunner::answers;

TEST_CASE("the state of a book is its last entry with that entry's seal, and an empty book has none",
          "[answers]") {
  book::Shop empty;
  const figures::BookState none = state_of(empty.book());
  CHECK(none.last_entry == 0);
  CHECK(none.seal.empty());
  CHECK(none.paper_size.empty());
  CHECK_FALSE(none.version.empty());

  Pip pip;
  pip.record([](book::Recording& recording) { book::set(recording, "paper-size", "letter"); });
  const figures::BookState two = state_of(pip.book());
  CHECK(two.last_entry == 2);
  CHECK(two.seal == book::seal_of(pip.book(), 2));
  CHECK(two.paper_size == "letter");
  CHECK(two.version == none.version);
  pip.bought("set", "118.00");
  CHECK(state_of(pip.book()).last_entry == 3);
  CHECK(state_of(pip.book()).seal != two.seal);
}

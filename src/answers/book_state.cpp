#include "answers/book_state.h"

#include "book/ledger/seal_of.h"

namespace nonrunner::answers {

figures::BookState state_of(const book::Book& book) {
  figures::BookState state;
  state.version = NONRUNNER_VERSION;
  state.paper_size = book.setting("paper-size").value_or("");
  state.last_entry = book::last_entry(book);
  if (state.last_entry == 0) return state;
  state.seal = book::seal_of(book, state.last_entry);
  return state;
}

}  // namespace nonrunner::answers

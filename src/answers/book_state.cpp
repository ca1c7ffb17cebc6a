#include "answers/book_state.h"

#include "book/ledger/entry.h"

namespace nonrunner::answers {

figures::BookState state_of(const book::Book& book) {
  figures::BookState state;
  state.version = NONRUNNER_VERSION;
  state.paper_size = book.setting("paper-size").value_or("");
  state.last_entry = book::last_entry(book);
  if (state.last_entry == 0) return state;
  auto& seal = book.query("SELECT lower(hex(hash)) FROM entry WHERE entry = ?");
  seal.bind(1, state.last_entry);
  if (seal.executeStep()) state.seal = seal.getColumn(0).getString();
  seal.tryReset();
  return state;
}

}  // namespace nonrunner::answers

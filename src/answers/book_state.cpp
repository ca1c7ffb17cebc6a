#include "answers/book_state.h"

#include "book/ledger/entry.h"
#include "book/ledger/query.h"

namespace nonrunner::answers {

figures::BookState state_of(const book::Book& book) {
  figures::BookState state;
  state.version = NONRUNNER_VERSION;
  state.paper_size = book.setting("paper-size").value_or("");
  state.last_entry = book::last_entry(book);
  if (state.last_entry == 0) return state;
  state.seal = book::first<std::string>(book, "SELECT lower(hex(hash)) FROM entry WHERE entry = :entry",
                                        {{":entry", state.last_entry}})
                   .value_or("");
  return state;
}

}  // namespace nonrunner::answers

#include "book/ledger/seal_of.h"

#include "book/ledger/query.h"

namespace nonrunner::book {

std::string seal_of(const Book& book, EntryId entry) {
  return first<std::string>(book, "SELECT lower(hex(hash)) FROM entry WHERE entry = :entry",
                            {{":entry", entry}})
      .value_or("");
}

}  // namespace nonrunner::book

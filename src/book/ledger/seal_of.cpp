#include "book/ledger/seal_of.h"

#include <fmt/format.h>

#include "book/ledger/query.h"

namespace nonrunner::book {

std::string hex(const Hash& hash) {
  std::string text;
  for (const std::uint8_t byte : hash) text += fmt::format("{:02x}", byte);
  return text;
}

std::string seal_of(const Book& book, EntryId entry) {
  return first<std::string>(book, "SELECT lower(hex(hash)) FROM entry WHERE entry = :entry",
                            {{":entry", entry}})
      .value_or("");
}

}  // namespace nonrunner::book

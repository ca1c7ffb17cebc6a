#include "book/ledger/seal_of.h"

#include <string_view>

#include "book/ledger/query.h"

namespace nonrunner::book {

std::string hex(const Hash& hash) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const std::uint8_t byte : hash) {
    text += digits[byte >> 4];
    text += digits[byte & 15];
  }
  return text;
}

std::string seal_of(const Book& book, EntryId entry) {
  return first<std::string>(book, "SELECT lower(hex(hash)) FROM entry WHERE entry = :entry",
                            {{":entry", entry}})
      .value_or("");
}

}  // namespace nonrunner::book

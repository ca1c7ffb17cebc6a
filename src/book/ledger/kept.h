// The id by which a phone or a form keeps an entry once, however often it is sent. It is made where it was kept,
// 32 lower-case hexadecimal digits, and stands in the entry's event as `kept_as = "ID"`, with the SHA-256 of what was
// sent behind it where that is known: `kept_as = "ID SHA256"`. It stays spent when the entry is taken back.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/ledger/entry.h"
#include "text/table.h"

namespace nonrunner::book {

bool is_kept_id(std::string_view);

struct Kept {
  std::string id, sent;  // sent: SHA-256 in hexadecimal; empty: not known
  EntryId entry = 0;     // 0: what it did is no entry
  std::string device;
  std::optional<EntryId> may_be;  // what it may be the same as; nobody has said yet
  bool taken_back = false;        // since
};
std::optional<Kept> kept_as(const Book&, const std::string& id);
// Those that may be the same as another entry, both still counting, oldest first.
std::vector<Kept> may_be_the_same(const Book&);
void say_may_be(Recording&, const std::string& id, std::optional<EntryId>);

// Takes `kept_as` out of an event's table and hands it to the recording, for the next entry of that kind. Throws
// Refusal where it is no such id.
Value without_kept(Recording&, const Table& event);
// For Draft: the entry keeps the recording's id, if it is of that kind.
void keep_id(Recording&, EntryId, const std::string& kind);
// "ID SHA256", as an event says it.
std::string kept_text(const KeptAs&);

}  // namespace nonrunner::book

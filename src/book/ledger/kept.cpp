#include "book/ledger/kept.h"

#include <algorithm>

#include "book/ledger/query.h"

namespace nonrunner::book {

namespace {

constexpr std::size_t id_digits = 32, hash_digits = 64;

bool is_hex(std::string_view text, std::size_t digits) {
  return text.size() == digits && std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
         });
}

constexpr const char* kept_columns =
    "SELECT k.kept, k.sent, coalesce(k.entry, 0), k.device, k.may_be, "
    "k.entry IS NOT NULL AND NOT EXISTS (SELECT 1 FROM live_entry l WHERE l.entry = k.entry) FROM kept k ";

std::vector<Kept> rows_of(const Book& book, const std::string& where, const std::string& id) {
  std::vector<Kept> all;
  each<std::string, std::string, EntryId, std::string, std::optional<std::int64_t>, std::int64_t>(
      book, kept_columns + where, {{":id", id}},
      [&](const std::string& kept, const std::string& sent, EntryId entry, const std::string& device,
          std::optional<std::int64_t> may_be, std::int64_t taken_back) {
        all.push_back({kept, sent, entry, device, may_be, taken_back != 0});
      });
  return all;
}

}  // namespace

bool is_kept_id(std::string_view text) { return is_hex(text, id_digits); }

std::optional<Kept> kept_as(const Book& book, const std::string& id) {
  const auto found = rows_of(book, "WHERE k.kept = :id", id);
  return found.empty() ? std::nullopt : std::optional(found.front());
}

std::vector<Kept> may_be_the_same(const Book& book) {
  return rows_of(book,
                 "JOIN live_entry a ON a.entry = k.entry JOIN live_entry b ON b.entry = k.may_be "
                 "WHERE :id = '' ORDER BY k.entry",
                 "");
}

void say_may_be(Recording& recording, const std::string& id, std::optional<EntryId> entry) {
  if (entry)
    change(recording.book(), "UPDATE kept SET may_be = :entry WHERE kept = :id",
           {{":entry", *entry}, {":id", id}});
  else
    change(recording.book(), "UPDATE kept SET may_be = NULL WHERE kept = :id", {{":id", id}});
}

Value without_kept(Recording& recording, const Table& event) {
  Value bare = event.value();
  recording.kept_as.reset();
  if (!event.has("kept_as")) return bare;
  const std::string text = event.text("kept_as");
  const std::string id = text.substr(0, id_digits);
  const std::string sent = text.size() > id_digits ? text.substr(id_digits + 1) : "";
  const bool parted = text.size() == id_digits ||
                      (text.size() > id_digits && text[id_digits] == ' ' && is_hex(sent, hash_digits));
  if (!is_kept_id(id) || !parted)
    event.refuse("kept_as", "32 hexadecimal digits, and behind a blank the SHA-256 of what was sent");
  recording.kept_as = KeptAs{id, sent, event.text("do")};
  std::erase_if(bare.entries, [](const auto& each) { return each.first == "kept_as"; });
  return bare;
}

std::string kept_text(const KeptAs& kept) { return kept.sent.empty() ? kept.id : kept.id + " " + kept.sent; }

void keep_id(Recording& recording, EntryId entry, const std::string& kind) {
  if (!recording.kept_as || recording.kept_as->kind != kind) return;
  const KeptAs kept = *recording.kept_as;
  recording.kept_as.reset();
  if (entry != 0)
    change(recording.book(), "INSERT INTO kept (kept, sent, entry, device) VALUES (:id, :sent, :entry, :who)",
           {{":id", kept.id}, {":sent", kept.sent}, {":entry", entry}, {":who", recording.typed_by}});
  else
    change(recording.book(), "INSERT INTO kept (kept, sent, device) VALUES (:id, :sent, :who)",
           {{":id", kept.id}, {":sent", kept.sent}, {":who", recording.typed_by}});
}

}  // namespace nonrunner::book

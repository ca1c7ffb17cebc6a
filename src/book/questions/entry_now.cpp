#include "book/questions/entry_now.h"

#include "book/ledger/query.h"

namespace nonrunner::book {

std::string first_car_of(const Book& book, EntryId entry) {
  return first<std::string>(book, "SELECT vehicle FROM mention WHERE entry = :entry ORDER BY rowid LIMIT 1",
                            {{":entry", entry}})
      .value_or("");
}

std::string first_purse_of(const Book& book, EntryId entry) {
  return first<std::string>(book,
                            "SELECT a.name FROM posting p JOIN account a USING (account) WHERE p.entry = "
                            ":entry AND a.kind = 'purse' ORDER BY p.seq LIMIT 1",
                            {{":entry", entry}})
      .value_or("");
}

std::optional<EntryId> voided_by(const Book& book, EntryId entry) {
  return first<EntryId>(book, "SELECT entry FROM entry WHERE voids = :entry", {{":entry", entry}});
}

EntryId as_it_counts_now(const Book& book, EntryId entry) {
  for (int step = 0; step < 100; ++step) {
    const auto reversal = voided_by(book, entry);
    if (!reversal) return entry;
    // What was recorded with the reversal, and is of the same kind.
    const auto next = first<EntryId>(
        book,
        "SELECT min(n.entry) FROM entry n JOIN entry o ON o.entry = :entry WHERE n.entry > :reversal AND "
        "n.kind = o.kind AND n.recorded = (SELECT recorded FROM entry WHERE entry = :reversal)",
        {{":entry", entry}, {":reversal", *reversal}});
    if (!next || *next == 0) return entry;
    entry = *next;
  }
  return entry;
}

bool is_quick(const Book& book, EntryId entry) {
  return first<std::int64_t>(book, "SELECT 1 FROM paper WHERE entry = :entry AND itemised = 0",
                             {{":entry", entry}})
      .has_value();
}

std::optional<QuickLine> quick_line_of(const Book& book, EntryId entry) {
  const auto found = first<std::string, std::string, Money>(
      book,
      "SELECT l.what, s.vehicle, l.amount FROM line l JOIN live_entry e USING (entry) JOIN paper p USING "
      "(entry) JOIN share s ON s.line = l.line WHERE l.entry = :entry AND p.itemised = 0 LIMIT 1",
      {{":entry", entry}});
  if (!found) return std::nullopt;
  const auto& [what, car, amount] = *found;
  return QuickLine{what, car, amount};
}

}  // namespace nonrunner::book

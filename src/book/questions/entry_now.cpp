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

namespace {
// The entry that puts this one right, or takes its place as its paper; the last that does.
std::optional<EntryId> in_its_place(const Book& book, EntryId entry, EntryId reversal) {
  return *first<std::optional<EntryId>>(
      book,
      "SELECT max(n.entry) FROM place p JOIN entry n USING (entry) JOIN entry o ON o.entry = p.takes WHERE "
      "p.takes = :entry AND p.how IN ('corrects', 'replaces') AND n.entry > :reversal AND n.kind = o.kind",
      {{":entry", entry}, {":reversal", reversal}});
}

// A paper takes the place of several quick lines: it names one, and follows the reversals of all.
std::optional<EntryId> paper_of_several(const Book& book, EntryId quick, EntryId reversal) {
  return first<EntryId>(
      book,
      "SELECT n.entry FROM entry n JOIN paper p ON p.entry = :quick AND p.itemised = 0 JOIN entry v ON "
      "v.entry = :reversal JOIN place l ON l.entry = n.entry AND l.how = 'replaces' WHERE n.entry > v.entry "
      "AND n.kind = 'receipt' AND n.recorded = v.recorded AND NOT EXISTS (SELECT 1 FROM entry b WHERE "
      "b.entry "
      "> v.entry AND b.entry < n.entry AND b.kind NOT IN ('void', 'average')) ORDER BY n.entry LIMIT 1",
      {{":quick", quick}, {":reversal", reversal}});
}
// Of a book in which an entry of an open period did not say yet what it puts right: that was taken back, and entered anew in
// the same recording. What hung on it came after it, taken back from the last to the first and entered from the first on.
std::optional<EntryId> recorded_with(const Book& book, EntryId reversal) {
  std::vector<EntryId> entered;
  std::size_t taken_back_after = 0;
  bool is_over = false;
  each<EntryId, bool, bool>(
      book,
      "SELECT n.entry, n.voids IS NOT NULL, n.kind = o.kind OR coalesce(b.kind = o.kind, 0) FROM entry v "
      "JOIN "
      "entry o ON o.entry = v.voids JOIN entry n ON n.entry > v.entry AND n.recorded = v.recorded LEFT JOIN "
      "entry b ON b.entry = n.voids WHERE v.entry = :reversal AND EXISTS (SELECT 1 FROM place p WHERE "
      "p.entry = v.entry AND p.how = 'makes way') AND n.kind <> 'average' ORDER BY n.entry",
      {{":reversal", reversal}}, [&](EntryId entry, bool takes_back, bool same_kind) {
        is_over = is_over || (takes_back && !entered.empty());
        if (is_over || !same_kind) return;
        if (takes_back)
          ++taken_back_after;
        else
          entered.push_back(entry);
      });
  return taken_back_after < entered.size() ? std::optional(entered[taken_back_after]) : std::nullopt;
}
}  // namespace

std::optional<EntryId> put_in_its_place(const Book& book, EntryId entry) {
  const auto reversal = voided_by(book, entry);
  if (!reversal) return std::nullopt;
  auto next = in_its_place(book, entry, *reversal);
  if (!next) next = paper_of_several(book, entry, *reversal);
  if (!next) next = recorded_with(book, *reversal);
  return next;
}

EntryId as_it_counts_now(const Book& book, EntryId entry) {
  for (int step = 0; step < 100; ++step) {
    const auto next = put_in_its_place(book, entry);
    if (!next) return entry;
    entry = *next;
  }
  return entry;
}

bool is_quick(const Book& book, EntryId entry) {
  return first<std::int64_t>(book, "SELECT 1 FROM paper WHERE entry = :entry AND itemised = 0",
                             {{":entry", entry}})
      .has_value();
}

bool is_unnamed(const Book& book, EntryId entry) {
  return *first<bool>(book, "SELECT EXISTS (SELECT 1 FROM unnamed WHERE entry = :entry)",
                      {{":entry", entry}});
}

std::optional<QuickLine> quick_line_of(const Book& book, EntryId entry) {
  const auto found = first<std::string, std::string, Money, bool>(
      book,
      "SELECT l.what, s.vehicle, l.amount, EXISTS (SELECT 1 FROM unnamed u WHERE u.line = l.line) FROM line "
      "l "
      "JOIN live_entry e USING (entry) JOIN paper p USING (entry) JOIN share s ON s.line = l.line WHERE "
      "l.entry = :entry AND p.itemised = 0 LIMIT 1",
      {{":entry", entry}});
  if (!found) return std::nullopt;
  const auto& [what, car, amount, unnamed] = *found;
  return QuickLine{what, car, amount, unnamed};
}

}  // namespace nonrunner::book

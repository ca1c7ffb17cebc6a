#include "book/care/older_places.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "book/care/older_rows.h"
#include "book/events/receipt.h"
#include "book/events/void_entry.h"
#include "book/ledger/query.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace {

constexpr const char* place_tables[] = {"place", "unnamed"};
// An event that holds none of these need not be read.
constexpr const char* spelled[] = {how::corrects, how::replaces, "makes_way", "unnamed", name_to_come};

// The first entry that was recorded with these rows, of both tables.
EntryId first_with_places(const Book& book) {
  return *first<EntryId>(book, "SELECT max(entry) FROM sealed_from WHERE what IN ('place', 'unnamed')", {});
}

bool is_there(const Book& book, EntryId entry) {
  return *first<bool>(book, "SELECT EXISTS (SELECT 1 FROM entry WHERE entry = :entry)", {{":entry", entry}});
}

bool says(const Value& table, const char* key) {
  const Value* flag = table.find(key);
  return flag && flag->flag;
}

void add_unnamed(const Book& book, EntryId entry, const Value& event, std::vector<Detail>& all) {
  const Value *lines = event.find("line"), *itemised = event.find("itemised");
  if (!lines || lines->items.size() != 1 || !itemised || itemised->flag) return;
  const Value& line = lines->items.front();
  const Value* what = line.find("what");
  // Kept by a page of before that was a key of its own: these words stood where nobody had typed any.
  if (!says(line, "unnamed") && !(event.find("kept_as") && what && what->text == name_to_come)) return;
  each<std::int64_t>(book, "SELECT line FROM line WHERE entry = :entry", {{":entry", entry}},
                     [&](std::int64_t number) {
                       all.push_back({detail_table("unnamed"), {Cell(number)}});
                     });
}

// What the event of an entry says, by tables.
std::vector<Detail> said_by_event(const Book& book, EntryId entry, std::optional<EntryId> voids,
                                  const std::string& text) {
  std::vector<Detail> all;
  if (std::none_of(std::begin(spelled), std::end(spelled),
                   [&](const char* key) { return text.find(key) != std::string::npos; }))
    return all;
  const Value kept = kept_event(text);
  const Value& event = *kept.find("e");
  const auto add = [&](EntryId taken, const char* how) {
    if (taken < entry && is_there(book, taken))
      all.push_back({detail_table("place"), {Cell(taken), std::string(how)}});
  };
  for (const char* key : {how::corrects, how::replaces})
    if (const Value* named = event.find(key); named && named->kind == Value::Kind::whole)
      add(std::stoll(named->text), key);
  const Value* why = event.find("why");
  if (const char* how = how_it_makes_way(says(event, "makes_way"), why ? why->text : ""); voids && how)
    add(*voids, how);
  add_unnamed(book, entry, event, all);
  return all;
}

}  // namespace

void add_older_places(Book& book) {
  const EntryId since = first_with_places(book);
  if (since == 1) return;
  std::vector<std::pair<EntryId, Detail>> found;
  each<EntryId, std::optional<EntryId>, std::string>(
      book, "SELECT entry, voids, event FROM entry WHERE entry < :since ORDER BY entry", {{":since", since}},
      [&](EntryId entry, std::optional<EntryId> voids, const std::string& text) {
        try {
          for (Detail& detail : said_by_event(book, entry, voids, text))
            found.emplace_back(entry, std::move(detail));
        } catch (const Refusal&) {
          // Told of by check.
        }
      });
  while_open(book, place_tables, [&] {
    for (const auto& [entry, detail] : found) add_older_row(book, entry, detail);
  });
}

bool older_places_agree(const Book& book, const Entry& entry) {
  if (entry.id >= first_with_places(book)) return true;
  return said_by_event(book, entry.id, entry.voids, entry.event) == rows_beside(book, entry.id, place_tables);
}

}  // namespace nonrunner::book

#include "book/events/comparables.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <set>

#include "book/ledger/checks.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/limits.h"
#include "book/ledger/query.h"
#include "exact/hint.h"

namespace nonrunner::book {

namespace {

// Words of letters and digits, small; other characters of UTF-8 count as letters.
std::set<std::string> words_of(const std::string& text) {
  std::set<std::string> words;
  std::string word;
  for (const char c : text + " ") {
    const auto byte = static_cast<unsigned char>(c);
    const bool capital = c >= 'A' && c <= 'Z';
    if (capital || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || byte >= 0x80) {
      word += capital ? static_cast<char>(c - 'A' + 'a') : c;
    } else if (!word.empty()) {
      words.insert(word);
      word.clear();
    }
  }
  return words;
}

// Asks with all that a comparable says.
template <class Ask>
auto with(const KeptComparable& each, Ask ask) {
  return ask({{":model", each.model},
              {":price", each.price},
              {":kind", each.sold ? "sold" : "asking"},
              {":odometer", each.odometer},
              {":year", each.year},
              {":grade", each.grade},
              {":note", each.note},
              {":day", each.day}});
}

void note_comparable(Recording& recording, std::int64_t id) {
  note_desk(recording, "comparable " + std::to_string(id));
}

}  // namespace

bool keep_comparable(Recording& recording, const KeptComparable& comparable) {
  Book& book = recording.book();
  if (is_entered_now(recording))  // a book that is restored is taken as it was
    for (const std::string& name : {comparable.model, comparable.note}) expect_name("comparable", name);
  if (!comparable.model.empty()) {
    std::vector<std::int64_t> gone;
    each<std::int64_t>(book,
                       "DELETE FROM comparable WHERE model = '' AND price = :price AND kind = :kind AND "
                       "odometer = :odometer "
                       "AND year = :year AND grade = :grade AND note = :note RETURNING comparable",
                       {{":price", comparable.price},
                        {":kind", comparable.sold ? "sold" : "asking"},
                        {":odometer", comparable.odometer},
                        {":year", comparable.year},
                        {":grade", comparable.grade},
                        {":note", comparable.note}},
                       [&](std::int64_t id) { gone.push_back(id); });
    for (const std::int64_t id : gone) note_comparable(recording, id);
  }
  const auto known = with(comparable, [&](Binds binds) {
    return first<std::int64_t, bool>(book,
                                     "SELECT comparable, day < :day FROM comparable WHERE model = :model AND "
                                     "price = :price AND kind = :kind AND odometer = :odometer AND year = "
                                     ":year AND grade = :grade AND note = :note",
                                     binds);
  });
  if (known) {
    const auto& [id, later] = *known;
    if (later) {
      change(book, "UPDATE comparable SET day = :day WHERE comparable = :id",
             {{":day", comparable.day}, {":id", id}});
      note_comparable(recording, id);
    }
    return false;
  }
  with(comparable, [&](Binds binds) {
    return change(
        book,
        "INSERT INTO comparable (model, price, kind, odometer, year, grade, note, day) VALUES (:model, "
        ":price, :kind, :odometer, :year, :grade, :note, :day)",
        binds);
  });
  note_comparable(recording, book.database().getLastInsertRowid());
  return true;
}

void drop_comparable(Recording& recording, std::int64_t id) {
  if (change(recording.book(), "DELETE FROM comparable WHERE comparable = :id", {{":id", id}}) == 0)
    throw hinted<Refusal>(fmt::format("comparable: there is no number {}, expected one of those listed", id),
                          {Action::list_comparables, {}});
  note_comparable(recording, id);
}

std::vector<KeptComparable> all_comparables(const Book& book) {
  std::vector<KeptComparable> all;
  rows(book,
       "SELECT comparable, model, price, kind = 'sold', odometer, year, grade, day, note FROM comparable "
       "ORDER BY model, "
       "price, comparable",
       {}, [&](const Row& row) {
         KeptComparable& kept = all.emplace_back();
         row.into(kept.id, kept.model, kept.price, kept.sold, kept.odometer, kept.year, kept.grade, kept.day,
                  kept.note);
       });
  return all;
}

std::vector<KeptComparable> comparables_that_fit(const Book& book, const std::string& description, int year,
                                                 Day today, const Fit& fit) {
  const std::set<std::string> described = words_of(description);
  std::vector<KeptComparable> fitting;
  for (KeptComparable& each : all_comparables(book)) {
    const std::set<std::string> model = words_of(each.model);
    const int age = days_between(each.day, today);
    if (age < 0 || age > fit.days_old || std::abs(each.year - year) > fit.years_apart) continue;
    if (std::includes(described.begin(), described.end(), model.begin(), model.end()))
      fitting.push_back(std::move(each));
  }
  return fitting;
}

}  // namespace nonrunner::book

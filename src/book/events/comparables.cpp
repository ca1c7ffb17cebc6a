#include "book/events/comparables.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <set>

#include "book/ledger/desk_notes.h"
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

void bind(SQLite::Statement& statement, const KeptComparable& each) {
  statement.bind(1, each.model);
  statement.bind(2, each.price.minor());
  statement.bind(3, each.sold ? "sold" : "asking");
  statement.bind(4, each.odometer.thousandths());
  statement.bind(5, each.year);
  statement.bind(6, each.grade.thousandths());
  statement.bind(7, each.note);
}

void note_comparable(Recording& recording, std::int64_t id) {
  note_desk(recording, "comparable " + std::to_string(id));
}

}  // namespace

bool keep_comparable(Recording& recording, const KeptComparable& each) {
  if (!each.model.empty()) {
    auto& untied = recording.book().query(
        "DELETE FROM comparable WHERE model = '' AND ?1 <> '' AND price = ?2 AND kind = ?3 AND odometer = ?4 "
        "AND year = ?5 AND grade = ?6 AND note = ?7 RETURNING comparable");
    bind(untied, each);
    std::vector<std::int64_t> gone;
    while (untied.executeStep()) gone.push_back(untied.getColumn(0).getInt64());
    untied.tryReset();
    for (const std::int64_t id : gone) note_comparable(recording, id);
  }
  auto& find = recording.book().query(
      "SELECT comparable, day FROM comparable WHERE model = ? AND price = ? AND kind = ? AND odometer = ? "
      "AND year = ? AND grade = ? "
      "AND note = ?");
  bind(find, each);
  if (find.executeStep()) {
    const std::int64_t id = find.getColumn(0).getInt64();
    const bool later = find.getColumn(1).getString() < each.day.iso();
    find.tryReset();
    if (later) {
      auto& update = recording.book().query("UPDATE comparable SET day = ? WHERE comparable = ?");
      update.bind(1, each.day.iso());
      update.bind(2, id);
      update.exec();
      note_comparable(recording, id);
    }
    return false;
  }
  find.tryReset();
  auto& insert = recording.book().query(
      "INSERT INTO comparable (model, price, kind, odometer, year, grade, note, day) VALUES (?, ?, ?, ?, ?, "
      "?, ?, ?)");
  bind(insert, each);
  insert.bind(8, each.day.iso());
  insert.exec();
  note_comparable(recording, recording.book().database().getLastInsertRowid());
  return true;
}

void drop_comparable(Recording& recording, std::int64_t id) {
  auto& drop = recording.book().query("DELETE FROM comparable WHERE comparable = ?");
  drop.bind(1, id);
  if (drop.exec() == 0)
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

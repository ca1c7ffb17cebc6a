#include "answers/unplaced.h"

#include <map>

#include "book/events/assigned.h"
#include "book/ledger/event_text.h"
#include "book/ledger/query.h"

namespace nonrunner::answers {

namespace {

std::string words_at(const Value& table, const char* key) {
  const Value* value = table.find(key);
  return value && value->kind == Value::Kind::text ? value->text : std::string();
}

class Looking {
 public:
  explicit Looking(const book::Book& book) : book_(book) {}

  void at(book::EntryId entry, const std::string& kind, const Value& event) {
    if (kind == "hours") {
      if (!event.find("for"))
        look({words_at(event, "vehicle"), words_at(event, "operation"), "", entry, {}}, true);
      return;
    }
    const Value* lines = event.find("line");
    for (const Value& line : lines ? lines->items : std::vector<Value>())
      if (!line.find("for") && !line.find("core_of") && !line.find("return_of") && line.find("to"))
        look({words_at(line, "to"), words_at(line, "what"), words_at(line, "id"), entry, {}}, false);
  }
  std::vector<Unplaced> all;

 private:
  void look(Unplaced found, bool is_hours) {
    const Places& places = places_.try_emplace(found.tag, book_, found.tag).first->second;
    if (places.names().empty()) return;
    found.placing = places.placing(found.words, is_hours);
    if (!found.placing.close.empty()) all.push_back(std::move(found));
  }
  const book::Book& book_;
  std::map<std::string, Places> places_;
};

}  // namespace

std::vector<Unplaced> unplaced(const book::Book& book, book::EntryId first, book::EntryId last) {
  Looking looking(book);
  std::vector<std::tuple<book::EntryId, std::string, std::string>> made;
  book::each<book::EntryId, std::string, std::string>(
      book,
      "SELECT e.entry, e.kind, e.event FROM live_entry l JOIN entry e USING (entry) WHERE e.entry BETWEEN "
      ":first AND :last "
      "AND e.kind IN ('receipt', 'hours') ORDER BY e.entry LIMIT :most",
      {{":first", first}, {":last", last}, {":most", std::int64_t{most_entries_looked_at}}},
      [&](book::EntryId entry, const std::string& kind, const std::string& event) {
        made.emplace_back(entry, kind, event);
      });
  for (const auto& [entry, kind, text] : made) {
    const Value event = book::kept_event(text);
    looking.at(entry, kind, *event.find("e"));
  }
  return std::move(looking.all);
}

Question question_of(const Unplaced& found) {
  return question_of(found.placing, "entry " + std::to_string(found.entry), found.words);
}

void place(book::Recording& recording, const Unplaced& found) {
  book::Assign assign;
  assign.vehicle = found.tag;
  assign.heading = found.placing.close;
  assign.line = found.paper_line;
  if (found.paper_line.empty()) assign.entry = found.entry;
  book::assign(recording, assign);
}

}  // namespace nonrunner::answers

#include "book/ledger/marks.h"

#include <map>

#include "book/ledger/query.h"

namespace nonrunner::book {

std::vector<DatedMark> marks_of(const Book& book, const std::string& vehicle, std::optional<Day> on) {
  std::vector<DatedMark> all;
  each<Day, EntryId, std::optional<std::int64_t>, std::string, std::string, std::string>(
      book,
      "SELECT e.day, e.entry, m.line, m.says, m.name, e.kind FROM mark m JOIN entry e USING (entry) WHERE "
      "m.vehicle "
      "= :tag AND " +
          counts_on(":on") + " ORDER BY e.day, e.entry, m.rowid",
      {{":tag", vehicle}, {":on", on}},
      [&](Day day, EntryId entry, std::optional<std::int64_t> line, const std::string& says,
          const std::string& name, const std::string& kind) {
        DatedMark& mark = all.emplace_back();
        mark.day = day;
        mark.entry = entry;
        mark.line = line;
        mark.says = says;
        mark.name = name;
        mark.with_hours = kind == "hours";
      });
  return all;
}

const std::vector<MarkKey>& mark_keys() {
  static const std::vector<MarkKey> keys = {
      {"for", Holds::text, "a line of the budget, or \"none\"", "what its money or its hours stand under"},
      {"done", Holds::flag, "true or false", "that line is done"},
      {"more", Holds::flag, "true or false", "more is to come under that line"},
      {"still_to_do", Holds::texts, "a list of lines of the budget",
       "what stays open, though all else is done"}};
  return keys;
}

namespace {
// The car that an event's marks are about.
std::string vehicle_of(const Table& event) {
  for (const char* key : {"vehicle", "to"})
    if (const Value* value = event.find(key); value && value->kind == Value::Kind::text) return value->text;
  return "";
}
}  // namespace

Value without_marks(Recording& recording, const Table& event) {
  Value bare = event.value();
  const std::string name = event.text_or("do", "");
  if (name == "done" || name == "receipt" || name == "plan") return bare;  // these say it themselves
  const std::string vehicle = vehicle_of(event);
  if (event.has("for")) {
    const std::string line = event.text("for");
    recording.marks.push_back({vehicle, says::under, line == under_none ? "" : line});
  }
  const std::string named = event.text_or("for", under_none);
  const std::string line = named == under_none ? event.text_or("operation", "") : named;
  if (event.flag_or("done", false)) recording.marks.push_back({vehicle, says::done, line});
  if (event.flag_or("more", false)) recording.marks.push_back({vehicle, says::more, line});
  for (const std::string& open :
       event.has("still_to_do") ? event.texts("still_to_do") : std::vector<std::string>())
    recording.marks.push_back({vehicle, says::open, open});
  for (const MarkKey& mark : mark_keys())
    std::erase_if(bare.entries, [&](const auto& each) { return each.first == mark.key; });
  return bare;
}

void write_marks(EventText& event, const std::vector<Mark>& marks) {
  std::vector<std::string> open;
  for (const Mark& mark : marks) {
    if (mark.says == says::under) event.text("for", mark.name.empty() ? under_none : mark.name);
    if (mark.says == says::done) event.flag("done", true);
    if (mark.says == says::more) event.flag("more", true);
    if (mark.says == says::open) open.push_back(mark.name);
  }
  event.texts("still_to_do", open);
}

}  // namespace nonrunner::book

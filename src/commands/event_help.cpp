#include "commands/event_help.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "book/events/post.h"
#include "book/ledger/marks.h"
#include "commands/options.h"
#include "commands/topic_files.h"
#include "exact/ends.h"
#include "exact/nearest.h"

namespace nonrunner::commands {

namespace {

constexpr const char* what_it_holds =
    "An events file holds event = [ { do = \"...\", date = 2026-04-05, ... }, ... ]; all of it is recorded, "
    "in "
    "order, or nothing. It may begin with hour = 20, what an own hour must earn. Beside do and date an event "
    "has these keys; those in brackets may be absent:";

constexpr const char* marks = "An event about one car may also say what it is to the car's budget:";
constexpr const char* kept_as = "What a phone kept has kept_as, the id by which it is entered once.";
constexpr const char* corrects =
    "What puts right an entry of a closed period has corrects, the number of that entry: as far as that "
    "went, it stands under "
    "its day.";

// A line with its first word in a column of its own.
std::string beside(const std::string& first, std::size_t width, const std::string& text) {
  const std::string head = fmt::format("{:<{}}  ", first, width);
  return head + in_80(std::string(head.size(), ' ') + text, head.size()).substr(head.size());
}

std::string keys_of(const book::EventWord& word) {
  std::string keys;
  for (const book::Described& field : word.fields)
    if (field.key != "date")
      keys +=
          (keys.empty() ? "" : ", ") + (field.need == book::Need::must ? field.key : "[" + field.key + "]");
  return keys;
}

std::string rows_of(const std::vector<book::Described>& fields, std::size_t indent) {
  std::size_t width = 0;
  for (const book::Described& field : fields) width = std::max(width, field.key.size());
  std::string text;
  for (const book::Described& field : fields) {
    const bool may = field.need != book::Need::must;
    text += beside(std::string(indent, ' ') + field.key, width + indent,
                   fmt::format("{}{}: {}{}", may ? "(may be absent) " : "", field.kind, field.means,
                               field.rows.empty() ? "" : "; each has"));
    text += rows_of(field.rows, indent + 2);
  }
  return text;
}

}  // namespace

std::string fields_text(const std::vector<book::Described>& fields) { return rows_of(fields, 2); }

namespace {
std::string marks_text() {
  std::vector<book::Described> rows;
  for (const book::MarkKey& mark : book::mark_keys())
    rows.push_back({mark.key, mark.holds, mark.kind, mark.means, book::Need::may, {}, book::Text::words, {}});
  return in_80(marks, 0) + rows_of(rows, 2) + in_80(kept_as, 0) + in_80(corrects, 0);
}
}  // namespace

std::string events_help() {
  std::string text = in_80(what_it_holds, 0) + "\n";
  std::size_t width = 0;
  const auto& words = book::events_described();
  for (const auto& word : words) width = std::max(width, word.name.size());
  for (const auto& word : words) {
    text += beside(word.name, width, word.says);
    text += beside("", width, keys_of(word));
  }
  text += "\n" + marks_text() + "\nAn example:\n\n";
  std::istringstream lines(topic_file("events.toml"));
  for (std::string line; std::getline(lines, line);) text += "  " + line + "\n";
  return text + "\nOne of them, key by key, with an example: nonrunner help events receipt\n";
}

std::string event_help(const std::string& event) {
  std::vector<std::string> names;
  for (const auto& word : book::events_described()) {
    names.push_back(word.name);
    if (word.name != event) continue;
    std::string text = fmt::format("{}: {}\n\n{}", word.name, word.says, rows_of(word.fields, 2));
    const std::string example =
        fmt::format("{{ do = \"{}\", date = 2026-04-05, {} }}", word.name, word.example);
    return text + "\nExample:\n" + in_80("  " + example, 4);
  }
  const std::string hint = did_you_mean(event, names);
  throw WrongUsage(fmt::format("help: there is no event \"{}\"{}", event,
                               hint.empty() ? "; see: nonrunner help events" : hint));
}

}  // namespace nonrunner::commands

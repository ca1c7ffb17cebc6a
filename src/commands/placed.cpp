#include "commands/placed.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/links.h"
#include "commands/ask.h"

namespace nonrunner::commands {

namespace {
bool is_whole(const std::string& word) {
  return !word.empty() && std::all_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
}
}  // namespace

Option for_option() {
  return {"for", "LINE", "the line of the car's budget it stands under, by number or name; none: no line"};
}
Option done_option() { return {"done", "", "the operation is done: nothing of it is to come"}; }
Option more_option() { return {"more", "", "more is to come under the same line of the budget"}; }

Placed::Placed(const Given& given, Terminal& terminal, const book::Book& book, const std::string& tag,
               const std::string& words, bool is_hours)
    : tag_(tag), words_(words), is_hours_(is_hours) {
  if (is_whole(words))
    if (const auto name = answers::name_meant(answers::line_names(book, tag), words, is_hours))
      words_ = *name;
  placing_ = answers::placing_of(book, given.usage().command, tag, words_, given.text("for"), is_hours);
  if (!placing_.close.empty() && terminal.in)
    answers::answer(placing_, ask(answers::question_of(placing_, given.usage().command, words_), terminal));
}

void Placed::mark(book::Recording& recording, bool is_done) const {
  if (placing_.says) recording.marks.push_back({tag_, book::says::under, *placing_.says});
  if (is_done)
    recording.marks.push_back({tag_, book::says::done, placing_.line.empty() ? words_ : placing_.line});
}

void Placed::remark(book::Recording& recording, book::EntryId entry) const {
  if (placing_.close.empty()) return;
  recording.remarks().push_back(
      fmt::format("under no line of the budget; if it is line {}, {}: nonrunner under {} \"{}\" {}",
                  placing_.number, placing_.close, tag_, placing_.close,
                  is_hours_ ? "--operation \"" + words_ + "\"" : fmt::format("--entry {}", entry)));
}

std::string Placed::said() const {
  if (placing_.line.empty()) return "";
  return placing_.number > 0 ? fmt::format(", line {}: {}", placing_.number, placing_.line)
                             : ", under " + placing_.line;
}

}  // namespace nonrunner::commands

#include "commands/placed.h"

#include <fmt/format.h>

#include <algorithm>

#include "answers/links.h"
#include "answers/unplaced.h"
#include "commands/ask.h"

namespace nonrunner::commands {

Option for_option() {
  return {"for", "LINE", "the line of the car's budget it stands under, by number or name; none: no line"};
}
Option done_option() { return {"done", "", "the operation is done: nothing of it is to come"}; }
Option more_option() { return {"more", "", "more is to come under the same line of the budget"}; }

Placed::Placed(const Given& given, Terminal& terminal, const book::Book& book, const std::string& tag,
               const std::string& words, bool is_hours)
    : tag_(tag), words_(words), is_hours_(is_hours) {
  words_ = answers::words_meant(book, given.usage().command, tag, words, is_hours);
  placing_ = answers::placing_of(book, given.usage().command, tag, words_, given.text("for"), is_hours);
  if (!placing_.close.empty() && terminal.in)
    answers::answer(placing_, ask(answers::question_of(placing_, given.usage().command, words_), terminal));
}

void Placed::mark(book::Recording& recording, bool is_done) const {
  if (placing_.says) recording.marks.push_back({tag_, book::says::under, *placing_.says});
  // As an events file says it, which has no more than these words: whose line they are is read from the budget.
  if (is_done)
    recording.marks.push_back(
        {tag_, book::says::done, placing_.says.value_or("").empty() ? words_ : *placing_.says});
}

void Placed::remark(book::Recording& recording, book::EntryId entry) const {
  if (placing_.close.empty()) return;
  recording.remarks().push_back(
      fmt::format("under no line of the budget; if it is line {}, {}: nonrunner under {} \"{}\" {}",
                  placing_.number, placing_.close, tag_, placing_.close,
                  is_hours_ ? "--operation \"" + words_ + "\"" : fmt::format("--entry {}", entry)));
}

namespace {
std::string told_of(const answers::Unplaced& found) {
  const std::string where = found.paper_line.empty() ? fmt::format("--entry {}", found.entry)
                                                     : fmt::format("--paper-line {}", found.paper_line);
  return fmt::format(
      "entry {}: \"{}\" stands under no line of the budget; if it is line {}, {}: nonrunner under {} \"{}\" "
      "{}",
      found.entry, found.words, found.placing.number, found.placing.close, found.tag, found.placing.close,
      where);
}
}  // namespace

std::vector<std::string> settle_unplaced(const Given& given, Terminal& terminal, book::Book& book,
                                         book::EntryId first, book::EntryId last) {
  constexpr std::size_t few = 20;
  const auto all = answers::unplaced(book, first, last);
  std::vector<std::string> told;
  if (!terminal.in || given.json() || all.size() > few) {
    for (const answers::Unplaced& found : all) told.push_back(told_of(found));
    return told;
  }
  std::vector<answers::Unplaced> placed;
  // All is in the book by now: where the input ends, what was not answered is told as without a terminal.
  for (const answers::Unplaced& found : all) {
    if (!*terminal.in) {
      told.push_back(told_of(found));
      continue;
    }
    try {
      if (ask(answers::question_of(found), terminal) == 0) placed.push_back(found);
    } catch (const Refusal&) {
      told.push_back(told_of(found));
    }
  }
  if (placed.empty()) return told;
  book::Recording recording(book, terminal.now, terminal.today);
  for (const answers::Unplaced& found : placed) answers::place(recording, found);
  recording.keep();
  return told;
}

std::string Placed::said() const {
  if (placing_.line.empty()) return "";
  return placing_.number > 0 ? fmt::format(", line {}: {}", placing_.number, placing_.line)
                             : ", under " + placing_.line;
}

}  // namespace nonrunner::commands

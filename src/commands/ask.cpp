#include "commands/ask.h"

#include <fmt/format.h>

#include <algorithm>
#include <istream>

#include "book/events/fields.h"
#include "commands/desk.h"
#include "exact/ends.h"

namespace nonrunner::commands {

std::string as_option(const answers::Choice& choice) {
  std::string text = "--" + choice.option;
  std::replace(text.begin(), text.end(), '_', '-');
  if (choice.value.empty()) return text;
  const bool one_word = choice.value.find(' ') == std::string::npos;
  return text + " " + (one_word ? choice.value : "\"" + choice.value + "\"");
}

namespace {

bool yes_or_no(const answers::Question& question) {
  return question.choices.size() == 2 && question.choices[0].key == "y" && question.choices[1].key == "n";
}

// "[Y/n]" where Enter is yes, "[y/n]" where it has to be typed; a list where there is more to choose from.
std::string put(const answers::Question& question) {
  const std::string words = printable(question.words);
  if (yes_or_no(question))
    return in_80(
        words + "? [" + (question.usual == 0U ? "Y" : "y") + "/" + (question.usual == 1U ? "N" : "n") + "]",
        2);
  std::size_t width = 0;
  for (const answers::Choice& choice : question.choices) width = std::max(width, choice.key.size());
  std::string text = in_80(words, 2);
  for (const answers::Choice& choice : question.choices)
    text +=
        in_80("  " + choice.key + std::string(width - choice.key.size() + 2, ' ') + printable(choice.words),
              width + 4);
  return text + "which?" + (question.usual ? " [" + question.choices[*question.usual].key + "]" : "") + "\n";
}

}  // namespace

std::size_t ask(const answers::Question& question, Terminal& terminal) {
  if (terminal.in == nullptr) throw Refusal(refusal_of(question, as_option));
  std::string text = put(question);
  text.back() = ' ';  // the answer stands on the same line
  for (std::string typed;;) {
    terminal.err << text << std::flush;
    if (!std::getline(*terminal.in, typed))
      throw Refusal(question.about + ": the input ended before an answer; nothing was recorded");
    if (const auto choice = choice_of(question, typed)) return *choice;
    if (typed.empty()) continue;
    std::vector<std::string> keys;
    for (const answers::Choice& each : question.choices) keys.push_back(each.key);
    terminal.err << in_80(printable(fmt::format("found \"{}\", expected {}", typed, book::one_of(keys))), 2);
  }
}

bool is_another_one(const std::optional<answers::Question>& question, Terminal& terminal) {
  if (!question) return false;
  if (question->choices[ask(*question, terminal)].option.empty())
    throw Refusal(question->about + ": left out; nothing was recorded");
  return true;
}

}  // namespace nonrunner::commands

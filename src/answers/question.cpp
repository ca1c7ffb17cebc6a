#include "answers/question.h"

#include "text/lower_case.h"

namespace nonrunner::answers {

std::string refusal_of(const Question& question, Spelling spelled) {
  std::string text = question.about + ": " + question.words;
  for (const Choice& choice : question.choices)
    if (!choice.option.empty()) text += "; " + choice.words + ": " + spelled(choice);
  return text;
}

namespace {
std::string trimmed(const std::string& text) {
  const auto begin = text.find_first_not_of(" \t\r");
  return begin == std::string::npos ? "" : text.substr(begin, text.find_last_not_of(" \t\r") + 1 - begin);
}
}  // namespace

std::optional<std::size_t> choice_of(const Question& question, const std::string& typed) {
  const std::string word = lower_case(trimmed(typed));
  if (word.empty()) return question.usual;
  for (std::size_t i = 0; i < question.choices.size(); ++i) {
    const std::string key = lower_case(question.choices[i].key);
    const bool is_it = word == key || word == lower_case(question.choices[i].words);
    if (is_it || (key == "y" && word == "yes") || (key == "n" && word == "no")) return i;
  }
  return std::nullopt;
}

}  // namespace nonrunner::answers

#include "commands/hints.h"

#include <fmt/format.h>

namespace nonrunner::commands {

std::string in_shell_words(const Hint& hint) {
  const auto word = [&](const char* name) {
    const auto found = hint.with.find(name);
    return found == hint.with.end() ? std::string() : found->second;
  };
  switch (hint.action) {
    case Action::give_courses_or_keep_appraisal:
      return "; keep one with nonrunner appraise JOB.toml --keep, or give the courses with --file "
             "COURSES.toml";
    case Action::go_on:
      return fmt::format("; what the other courses bring: nonrunner go-on {} --cause \"{}\"", word("tag"),
                         word("cause"));
    case Action::keep_appraisal:
      return "; keep one with: nonrunner appraise JOB.toml --keep";
    case Action::look_back:
      return ", expected a --date before that";
    case Action::look_back_or_give_courses:
      return ", a --date before that, or courses of your own with --file COURSES.toml";
    case Action::name_another_book:
      return "; restore to a new one with --book NEW";
    case Action::name_cause:
      return fmt::format(
          " say --cause \"{1}\" or the like, or note it: nonrunner note {0} \"...\" --cause \"...\"",
          word("tag"), word("cause"));
  }
  return "";
}

std::string with_hint(const std::exception& error) {
  const auto* more = dynamic_cast<const Hinted*>(&error);
  return error.what() + (more ? in_shell_words(more->hint()) : std::string());
}

}  // namespace nonrunner::commands

#include "commands/job_given.h"

#include "answers/fixes.h"
#include "answers/kept_job.h"
#include "answers/settled_job.h"
#include "commands/desk.h"
#include "exact/ends.h"
#include "text/tag.h"
#include "text/toml.h"

namespace nonrunner::commands {

bool names_a_file(const std::string& word) {
  return word == "-" || word.find_first_of("./\\") != std::string::npos;
}

std::optional<book::Book> book_at_hand(const Given& given, const Terminal& terminal) {
  if (given.flag("book")) return open_book(given, terminal);
  try {
    if (!std::filesystem::exists(terminal.default_book())) return std::nullopt;
  } catch (const WrongUsage&) {
    return std::nullopt;
  }
  return open_book(given, terminal);
}

JobGiven job_given(const Given& given, const Terminal& terminal, const std::string& word) {
  JobGiven result;
  if (names_a_file(word)) {
    result.book = book_at_hand(given, terminal);
    result.job = answers::read_settled_job(read_file(word), word == "-" ? "standard input" : word,
                                           result.book ? &*result.book : nullptr,
                                           result.book ? result.book->currency() : Currency{}, terminal.today)
                     .job;
    return result;
  }
  result.book = open_book(given, terminal);
  const std::string tag = as_tag(word);
  result.job = answers::faults_still_open(
      *result.book, tag, answers::job_to_decide(*result.book, given.usage().command, tag).job);
  return result;
}

}  // namespace nonrunner::commands

#include <fmt/format.h>

#include "answers/finding.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "words/finding.h"

namespace nonrunner::commands {

namespace {

void add_facts(book::Finding& finding, const Given& given, const std::string& option, const char* what,
               bool has_value) {
  for (const std::string& text : given.texts(option)) {
    if (!has_value) {
      finding.facts.push_back({what, text, ""});
      continue;
    }
    const auto [name, value] = name_and_value(given, option, text);
    finding.facts.push_back({what, name, value});
  }
}

int run_note(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Finding finding{date_of(given, terminal), given.word(0), given.word(1), {}};
  add_facts(finding, given, "seen", book::fact::seen, true);
  add_facts(finding, given, "cause", book::fact::cause, false);
  add_facts(finding, given, "ruled-out", book::fact::ruled_out, false);
  add_facts(finding, given, "trouble", book::fact::trouble, true);
  add_facts(finding, given, "failed", book::fact::failed, false);
  add_facts(finding, given, "cured", book::fact::cured, false);
  add_facts(finding, given, "same", book::fact::same, true);
  for (const std::string& text : given.texts("not-there")) {
    const auto at = text.rfind('=');  // as in an events file
    finding.facts.push_back(
        {book::fact::not_there, text.substr(0, at), at == std::string::npos ? "" : text.substr(at + 1)});
  }
  finding = answers::checked(book, finding);
  std::string said = "noted for " + finding.vehicle;
  for (const book::Fact& fact : finding.facts) said += "; " + words::in_words(fact);
  const auto other = answers::other_cause(book, finding);
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        const book::EntryId entry = record(recording, finding);
        if (other)
          recording.remarks().push_back(
              words::in_words(*other, book.currency()) +
              (other->lines.empty() ? "" : fmt::format(": nonrunner plan {} AMOUNT NAME", finding.vehicle)));
        return entry;
      },
      said);
}
}  // namespace

extern const Command note;
const Command note{
    {"note",
     "TAG TEXT",
     "what was found on a car, in words and as its appraisal calls it",
     "nonrunner note pip impeller gone --cause \"water pump or radiator\"",
     {{"seen", "TEST=OUTCOME", "what a test has shown", true},
      {"cause", "NAME", "the cause that was found; \"something else\" where the appraisal knows it not"},
      {"ruled-out", "NAME", "a cause that it is not", true},
      {"trouble", "NAME=there", "a trouble that was found, or NAME=\"not there\"", true},
      {"failed", "CORRECTION", "it was made and did not cure", true},
      {"cured", "CORRECTION", "it was made and cured", true},
      {"not-there", "WHAT=PLACE", "what was looked for in vain, and where", true},
      {"same", "OLD=NEW", "what an appraisal called OLD is NEW in the one kept last", true},
      date_option(),
      new_option()},
     true,
     "Names are those of the appraisal: whole, by a beginning that only one has, or by number.\n"
     "What is not there stands on the shopping list, so that nobody drives for it twice; a TEXT such as\n"
     "\"not there: radiator, at Cleave Yard\" says the same."},
    run_note};

}  // namespace nonrunner::commands

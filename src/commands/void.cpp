#include "book/events/void_entry.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/entry_number.h"

namespace nonrunner::commands {

book::EntryId entry_number(const Given& given, const std::string& text) {
  const auto number = scaled(text, 0);
  if (!number || *number < 1) given.wrong("found \"" + text + "\", expected the number of an entry");
  return *number;
}

namespace {
int run_void(const Given& given, Terminal& terminal) {
  const auto why = given.text("why");
  if (!why || why->empty()) given.wrong("why? say --why \"...\"");
  book::Book book = open_book(given, terminal);
  const book::Void request{date_of(given, terminal), entry_number(given, given.word(0)), *why,
                           given.text("date").has_value()};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, request); },
      fmt::format("entry {} is taken back", request.entry));
}
}  // namespace

extern const Command void_command;
const Command void_command{
    {"void",
     "ENTRY",
     "takes an entry back by a reversing entry that names it",
     "nonrunner void 118 --why \"typed twice\"",
     {{"why", "TEXT", "the reason"},
      {"date", "DAY", "the day on which it is taken back, YYYY-MM-DD (else that of the entry)"}},
     true,
     "A mistake goes back on the day of the entry, so that no report counts it; where that day "
     "lies in a closed period, today. A sale that falls through later than it was made goes "
     "back on its own day: --date."},
    run_void};

}  // namespace nonrunner::commands

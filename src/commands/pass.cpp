#include "book/events/pass.h"

#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_pass(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Pass pass{date_of(given, terminal), given.word(0), given.text_or("why", "")};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, pass); },
      pass.vehicle + " was looked at and left; what looking cost is overhead");
}
}  // namespace

extern const Command pass;
const Command pass{{"pass",
                    "TAG",
                    "a car looked at and left: its costs become the overhead of looking",
                    "nonrunner pass troupe --why \"asked too much\"",
                    {{"why", "TEXT", "the reason"}, date_option(), new_option()},
                    true,
                    ""},
                   run_pass};

}  // namespace nonrunner::commands

#include "book/events/finding.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_note(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Finding finding{date_of(given, terminal), given.word(0), given.word(1),
                              given.text_or("cause", "")};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, finding); },
      "noted for " + finding.vehicle);
}
}  // namespace

extern const Command note;
const Command note{
    {"note",
     "TAG TEXT",
     "what was found on a car, in words",
     "nonrunner note pip \"impeller gone, heater blocked\"",
     {{"cause", "NAME", "the cause that was found, as the job file calls it"}, date_option(), new_option()},
     true,
     "A TEXT that begins with \"not there\" stands in the shopping workbook as looked for in vain, with its "
     "place\n"
     "after \", at \": \"not there: radiator, at Cleave Yard\"."},
    run_note};

}  // namespace nonrunner::commands

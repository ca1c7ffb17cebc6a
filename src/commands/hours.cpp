#include "book/events/hours.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/placed.h"
#include "exact/ends.h"

namespace nonrunner::commands {

namespace {
int run_hours(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Labour labour;
  labour.day = date_of(given, terminal);
  labour.vehicle = given.word(0);
  const Placed placed(given, terminal, book, labour.vehicle, given.word(2), true);
  labour.operation = placed.words();
  Hours hours;
  try {
    hours = Hours::parse(given.word(1));
    if (const auto rate = given.text("paid")) {
      labour.paid = hours;
      labour.rate = Price::parse(*rate, book.currency());
      labour.purse = purse_of(given, book);
      labour.who = given.text("who").value_or("");
    } else {
      if (given.text("who"))
        given.wrong("--who: found a name without --paid, expected both: own hours are the owner's");
      labour.own = hours;
    }
  } catch (const Refusal& refusal) {
    given.wrong(refusal.what());
  }
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        placed.mark(recording, given.flag("done"));
        const book::EntryId entry = record(recording, labour);
        placed.remark(recording, entry);
        return entry;
      },
      fmt::format("{} {} hours on {}: {}{}{}", hours.shown(), labour.paid > Hours{} ? "paid" : "own",
                  labour.vehicle, labour.operation, placed.said(), given.flag("done") ? "; done" : ""));
}
}  // namespace

extern const Command hours;
const Command hours{{"hours",
                     "TAG N OPERATION",
                     "hours worked: own ones, or a helper's that are paid",
                     "nonrunner hours pip 1.5 \"front brakes\"",
                     {{"paid", "RATE", "a helper's hours, at this rate an hour"},
                      {"who", "NAME", "who was paid; it stands in the year's workbook"},
                      for_option(),
                      done_option(),
                      purse_option(),
                      date_option(),
                      new_option()},
                     true,
                     "OPERATION may be the number of a line of: nonrunner show TAG --detail."},
                    run_hours};

}  // namespace nonrunner::commands

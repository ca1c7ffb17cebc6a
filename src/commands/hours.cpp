#include "book/events/hours.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"

namespace nonrunner::commands {

namespace {
int run_hours(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Labour labour;
  labour.day = date_of(given, terminal);
  labour.vehicle = given.word(0);
  labour.operation = given.word(2);
  Hours hours;
  try {
    hours = Hours::parse(given.word(1));
    if (const auto rate = given.text("paid")) {
      labour.paid = hours;
      labour.rate = Price::parse(*rate, book.currency());
      labour.purse = purse_of(given, book);
    } else {
      labour.own = hours;
    }
  } catch (const Refusal& refusal) {
    given.wrong(refusal.what());
  }
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, labour); },
      fmt::format("{} {} hours on {}: {}", hours.shown(), labour.paid > Hours{} ? "paid" : "own",
                  labour.vehicle, labour.operation));
}
}  // namespace

extern const Command hours;
const Command hours{{"hours",
                     "TAG N OPERATION",
                     "hours worked: own ones, or a helper's that are paid",
                     "nonrunner hours pip 1.5 \"front brakes\"",
                     {{"paid", "RATE", "a helper's hours, at this rate an hour"},
                      purse_option(),
                      date_option(),
                      new_option()},
                     true,
                     ""},
                    run_hours};

}  // namespace nonrunner::commands

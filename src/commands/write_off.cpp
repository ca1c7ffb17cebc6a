#include "book/events/write_off.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/event_words.h"

namespace nonrunner::commands {

namespace {
constexpr std::initializer_list<const char*> write_off_words = {"vehicle"};

int run_write_off(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const auto write_off = typed_event<book::WriteOff>(given, terminal, book, "write off", write_off_words);
  const Money left = book::balance_of(book, book::account::vehicle_cost, write_off.vehicle).amount +
                     book::balance_of(book, book::account::recovered, write_off.vehicle).amount;
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, write_off); },
      fmt::format("{} is finished; {} of its cost was not recovered", write_off.vehicle,
                  left.shown(book.currency())));
}
}  // namespace

extern const Command write_off;
const Command write_off{
    {"write-off", "TAG", "a car in pieces is finished: what is left of its cost is its loss",
     "nonrunner write-off drayman", options_of<book::WriteOff>(write_off_words), true, ""},
    run_write_off};

}  // namespace nonrunner::commands

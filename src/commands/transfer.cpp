#include "book/events/transfer.h"

#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_transfer(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Transfer transfer{date_of(given, terminal), given.word(0), given.word(1), given.word(3),
                                given.word_as_money(2, book.currency())};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, transfer); },
      fmt::format("\"{}\" from {} to {} at {}", transfer.what, transfer.from, transfer.to,
                  transfer.amount.shown(book.currency())));
}
}  // namespace

extern const Command transfer;
const Command transfer{
    {"transfer",
     "FROM TO AMOUNT WHAT",
     "a part from one car to another at cost, or tools to a car",
     "nonrunner transfer drayman pip 35 \"starter\"",
     {date_option(), new_option()},
     true,
     "FROM may be the word tools: they are the shop's own cost, and a car's only where an\n"
     "amount of them is charged to it so. TO may be overhead for tools that are kept as an\n"
     "asset (nonrunner set tools asset) and are worn out or gone."},
    run_transfer};

}  // namespace nonrunner::commands

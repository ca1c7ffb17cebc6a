#include "book/events/transfer.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/placed.h"
#include "text/tag.h"

namespace nonrunner::commands {

namespace {
int run_transfer(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Transfer transfer{date_of(given, terminal),
                                as_tag(given.word(0)),
                                as_tag(given.word(1)),
                                given.word(3),
                                given.word_as_money(2, book.currency()),
                                given.text_or("line", "")};
  const Placed placed(given, terminal, book, transfer.to, transfer.what, false);
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        placed.mark(recording);
        const book::EntryId entry = record(recording, transfer);
        placed.remark(recording, entry);
        return entry;
      },
      fmt::format("\"{}\" from {} to {} at {}{}", transfer.what, transfer.from, transfer.to,
                  transfer.amount.shown(book.currency()), placed.said()));
}
}  // namespace

extern const Command transfer;
const Command transfer{
    {"transfer",
     "FROM TO AMOUNT WHAT",
     "a part from one car to another at cost, or tools to a car",
     "nonrunner transfer drayman pip 35 starter",
     {{"line", "LINE",
       "the receipt line of the tool, or of the part, whose deposit goes along (else the only one named "
       "WHAT)"},
      for_option(),
      date_option(),
      new_option()},
     true,
     "FROM may be the word tools: they are the shop's own cost, and a car's only where an\n"
     "amount of them is charged to it so. TO may be overhead for tools that are kept as an\n"
     "asset (nonrunner set tools asset) and are worn out or gone."},
    run_transfer};

}  // namespace nonrunner::commands

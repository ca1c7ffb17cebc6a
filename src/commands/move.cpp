#include "book/events/move.h"

#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_move(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Move move{date_of(given, terminal), given.word(1), given.word(2),
                        given.word_as_money(0, book.currency())};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, move); },
      Done([&](const std::string&) {
        return fmt::format("{} from {} to {}", move.amount.shown(book.currency()), move.from, move.to);
      }));
}
}  // namespace

extern const Command move;
const Command move{{"move",
                    "AMOUNT FROM TO",
                    "money from one purse to another",
                    "nonrunner move 200 bank cash",
                    {date_option(), new_option()},
                    true,
                    ""},
                   run_move};

}  // namespace nonrunner::commands

#include "book/events/move.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/event_words.h"

namespace nonrunner::commands {

namespace {
constexpr std::initializer_list<const char*> move_words = {"from", "to", "amount"};

int run_move(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const auto move = typed_event<book::Move>(given, terminal, book, "move", move_words);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, move); },
      Done([&](const std::string&) {
        return fmt::format("{} from {} to {}", move.amount.shown(book.currency()), move.from, move.to);
      }));
}
}  // namespace

extern const Command move;
const Command move{{"move", "FROM TO AMOUNT", "money from one purse to another",
                    "nonrunner move bank cash 200", with_new(options_of<book::Move>(move_words)), true, ""},
                   run_move};

}  // namespace nonrunner::commands

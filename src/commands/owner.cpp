#include "book/events/owner.h"

#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_owner(const Given& given, Terminal& terminal) {
  if (given.word(0) != "in" && given.word(0) != "out")
    given.wrong("found \"" + given.word(0) + "\", expected in or out");
  book::Book book = open_book(given, terminal);
  const bool in = given.word(0) == "in";
  const Money amount = given.word_as_money(1, book.currency());
  const std::string purse = purse_of(given, terminal, book, in ? "owner in" : "owner out");
  return record_one(
      book, given, terminal,
      [&](book::Recording& recording) {
        return record(recording, book::OwnerMoney{in, date_of(given, terminal), purse, amount});
      },
      Done([&](const std::string&) {
        return fmt::format("owner {} {} {} {}", in ? "put" : "took", amount.shown(book.currency()),
                           in ? "into" : "out of", purse);
      }));
}
}  // namespace

extern const Command owner;
const Command owner{{"owner",
                     "in|out AMOUNT",
                     "your own money put into the shop, or taken out of it",
                     "nonrunner owner in 2500 --purse cash",
                     {purse_option(), date_option(), new_option()},
                     true,
                     ""},
                    run_owner};

}  // namespace nonrunner::commands

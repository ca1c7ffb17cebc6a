#include "book/events/owner.h"

#include "answers/doubles.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/event_words.h"

namespace nonrunner::commands {

namespace {
constexpr std::initializer_list<const char*> owner_words = {"in or out", "amount"};

int run_owner(const Given& given, Terminal& terminal) {
  if (given.word(0) != "in" && given.word(0) != "out")
    given.wrong("found \"" + given.word(0) + "\", expected in or out");
  book::Book book = open_book(given, terminal);
  const bool in = given.word(0) == "in";
  book::OwnerMoney start;
  start.in = in;
  auto money = typed_event(given, terminal, book, in ? "owner in" : "owner out", owner_words, start);
  if (!money.again) money.again = is_another_one(answers::another_one(book, book::once(money)), terminal);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, money); },
      Done([&](const std::string&) {
        return fmt::format("owner {} {} {} {}", in ? "put" : "took", money.amount.shown(book.currency()),
                           in ? "into" : "out of", money.purse);
      }));
}
}  // namespace

extern const Command owner;
const Command owner{
    {"owner", "in|out AMOUNT", "your own money put into the shop, or taken out of it",
     "nonrunner owner in 2500 --purse cash", with_new(options_of<book::OwnerMoney>(owner_words)), true, ""},
    run_owner};

}  // namespace nonrunner::commands

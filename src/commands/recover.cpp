#include "book/events/recover.h"

#include "answers/doubles.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/event_words.h"

namespace nonrunner::commands {

namespace {
constexpr std::initializer_list<const char*> recover_words = {"vehicle", "amount", "what"};

int run_recover(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Recover start;
  start.back = given.flag("back");
  auto recover =
      typed_event(given, terminal, book, start.back ? "recover back" : "recover", recover_words, start);
  if (!recover.again)
    recover.again = is_another_one(answers::another_one(book, book::once(recover)), terminal);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, recover); },
      fmt::format("{} {} \"{}\" {} {}", recover.amount.shown(book.currency()),
                  recover.back ? "given back for" : "recovered for", recover.what,
                  recover.back ? "off" : "from", recover.vehicle));
}
}  // namespace

extern const Command recover;
const Command recover{
    {"recover", "TAG AMOUNT WHAT", "parts sold off a car, scrap",
     "nonrunner recover pip 25 old seat --purse cash",
     with_new(options_of<book::Recover>(recover_words),
              {{"back", "", "money given back to the buyer of a part"}}),
     true,
     "What is recovered lowers the car's cost, never below zero; beyond that it is income. Where the car "
     "goes "
     "to pieces, say once what it should still bring: nonrunner part-out TAG AMOUNT"},
    run_recover};

}  // namespace nonrunner::commands

#include "book/events/recover.h"

#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_recover(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::Recover recover{given.flag("back"),
                              date_of(given, terminal),
                              given.word(0),
                              given.word(2),
                              given.word_as_money(1, book.currency()),
                              purse_of(given, terminal, book, "recover")};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, recover); },
      fmt::format("{} {} \"{}\" {} {}", recover.amount.shown(book.currency()),
                  recover.back ? "given back for" : "recovered for", recover.what,
                  recover.back ? "off" : "from", recover.vehicle));
}
}  // namespace

extern const Command recover;
const Command recover{
    {"recover",
     "TAG AMOUNT WHAT",
     "parts sold off a car, scrap",
     "nonrunner recover pip 25 \"old seat\" --purse cash",
     {{"back", "", "money given back to the buyer of a part"}, purse_option(), date_option(), new_option()},
     true,
     "What is recovered lowers the car's cost, never below zero; beyond that it is income. Where the car "
     "goes "
     "to pieces, say once what it should still bring: nonrunner part-out TAG AMOUNT"},
    run_recover};

}  // namespace nonrunner::commands

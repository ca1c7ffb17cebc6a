#include "book/events/suggested.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_core(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const Currency& currency = book.currency();
  book::BackSaid said;
  said.day = date_of(given, terminal);
  said.line = given.word(0);
  said.quantity = given.quantity("qty");
  said.amount = given.money("amount", currency);
  said.purse = given.text_or("purse", "");
  said.on_account = given.money("on-account", currency);
  const book::SuggestedCore core = book::suggested_core(book, said);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, core.back); },
      Done([&](const std::string&) {
        return fmt::format("core of \"{}\" back: {}{}", core.line.what,
                           in_words(core.money, core.line, currency),
                           is_zero(core.short_by) ? "" : "; " + core.short_by.shown(currency) + " short");
      }));
}
}  // namespace

extern const Command core;
const Command core{{"core",
                    "LINE",
                    "an old part going back for its deposit",
                    "nonrunner core R03.1",
                    {{"amount", "AMOUNT", "what came back (else their deposit); 0 where it never will"},
                     {"qty", "N", "how many pieces (else all that are out)"},
                     {"purse", "NAME", "where it went (else see below)"},
                     {"on-account", "AMOUNT", "what of it lowers what is owed to the supplier"},
                     date_option(),
                     new_option()},
                    true,
                    "Where its paper was on account the money lowers what is still owed to the\n"
                    "supplier; the rest goes into the purse that paid."},
                   run_core};

}  // namespace nonrunner::commands

#include "book/tool_deposit.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_tool(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::ToolDeposit deposit{given.flag("back"),
                                  date_of(given, terminal),
                                  given.text_or("supplier", ""),
                                  given.word(1),
                                  given.word_as_money(0, book.currency()),
                                  purse_of(given, book),
                                  given.day("back-by")};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, deposit); },
      fmt::format("deposit of {} {} for \"{}\"", deposit.amount.shown(book.currency()),
                  deposit.back ? "came back" : "paid", deposit.what));
}
}  // namespace

extern const Command tool;
const Command tool{{"tool",
                    "AMOUNT WHAT",
                    "the deposit on a borrowed tool, and its coming back",
                    "nonrunner tool 60 \"pressure-fill tool\" --purse card",
                    {{"back", "", "it came back"},
                     {"supplier", "NAME", "who lent it"},
                     {"back-by", "DAY", "the last day"},
                     purse_option(),
                     date_option(),
                     new_option()},
                    true,
                    ""},
                   run_tool};

}  // namespace nonrunner::commands

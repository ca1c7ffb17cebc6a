#include "answers/purse.h"
#include "book/events/tool_deposit.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_tool(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const Currency& currency = book.currency();
  const bool back = given.flag("back");
  if (given.flag("kept") && !back)
    given.wrong("found --kept without --back, expected both: the rest of a deposit that never comes back");
  book::ToolDeposit deposit{back,
                            date_of(given, terminal),
                            given.text_or("supplier", ""),
                            given.word(0),
                            given.word_as_money(1, currency),
                            {},
                            given.day("back-by", Looks::forward),
                            {}};
  if (!is_zero(deposit.amount)) {
    const auto paid_from = back ? answers::purse_of_deposit(book, deposit.what) : std::nullopt;
    deposit.purse =
        paid_from && !given.text("purse")
            ? *paid_from
            : purse_of(given, terminal, book, back ? "tool deposit back" : "tool deposit", deposit.supplier);
  }
  const Money rest =
      back ? book::balance_of(book, book::account::tool_deposit, deposit.what).amount - deposit.amount
           : Money{};
  const bool final = given.flag("kept") && rest > Money{};
  if (final) deposit.kept = rest;
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, deposit); },
      Done([&](const std::string& through) {
        std::string said = is_zero(deposit.amount)
                               ? fmt::format("nothing came back for \"{}\"", deposit.what)
                               : fmt::format("deposit of {} {} {} for \"{}\"", deposit.amount.shown(currency),
                                             back ? "came back" : "paid", through, deposit.what);
        if (final)
          said += fmt::format("; {} never will and is overhead now", rest.shown(currency));
        else if (rest > Money{})
          said += fmt::format("; {} still due; where it never comes: nonrunner tool \"{}\" 0 --back --kept",
                              rest.shown(currency), deposit.what);
        return said;
      }));
}
}  // namespace

extern const Command tool;
const Command tool{{"tool",
                    "WHAT AMOUNT",
                    "the deposit on a borrowed tool, and its coming back",
                    "nonrunner tool pressure-fill tool 60 --purse card",
                    {{"back", "", "it came back"},
                     {"kept", "", "with --back: that is final; what is missing becomes overhead"},
                     {"supplier", "NAME", "who lent it"},
                     {"back-by", "DAY", "the last day"},
                     purse_option(),
                     date_option(),
                     new_option()},
                    true,
                    ""},
                   run_tool};

}  // namespace nonrunner::commands

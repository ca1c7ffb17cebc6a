#include "book/events/core_back.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_core(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const Currency& currency = book.currency();
  const book::Line line = book::expect_line(book, "core back", given.word(0));
  book::CoreBack back;
  back.day = date_of(given, terminal);
  back.line = given.word(0);
  back.quantity = given.quantity("qty").value_or(line.quantity - line.core_back);
  // What cannot be is for the event to refuse; until then it has no deposit.
  const bool can_be = back.quantity > Quantity{} && back.quantity <= line.quantity - line.core_back;
  const Money deposit = can_be ? book::core_deposit_of(line, back.quantity) : Money{};
  back.amount = given.money("amount", currency).value_or(deposit);
  const book::MoneyBack money = book::money_back(
      book, "core back", line, back.amount, given.text_or("purse", ""), given.money("on-account", currency));
  back.purse = money.purse;
  back.on_account = money.on_account;
  const Money short_by = deposit - back.amount;
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, back); },
      fmt::format("core of \"{}\" back: {}{}", line.what, in_words(money, line, currency),
                  is_zero(short_by) ? "" : "; " + short_by.shown(currency) + " short"));
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

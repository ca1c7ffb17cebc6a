#include "book/events/pay.h"

#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_pay(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const bool tax = given.flag("sales-tax");
  if (tax == given.word_if(1).has_value()) given.wrong("expected AMOUNT SUPPLIER, or AMOUNT --sales-tax");
  const book::Pay pay{date_of(given, terminal), tax, given.word_if(1).value_or(""),
                      given.word_as_money(0, book.currency()), purse_of(given, terminal, book, "pay")};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, pay); },
      fmt::format("paid {} {}", pay.amount.shown(book.currency()),
                  tax ? "of the sales tax" : "to " + pay.supplier));
}
}  // namespace

extern const Command pay;
const Command pay{
    {"pay",
     "AMOUNT [SUPPLIER]",
     "pays what was on account, or sales tax that was collected",
     "nonrunner pay 120 \"Harrow Wholesale\" --purse bank",
     {{"sales-tax", "", "the sales tax that is owed"}, purse_option(), date_option(), new_option()},
     true,
     ""},
    run_pay};

}  // namespace nonrunner::commands

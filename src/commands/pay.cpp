#include "book/events/pay.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "commands/event_words.h"

namespace nonrunner::commands {

namespace {
constexpr std::initializer_list<const char*> pay_words = {"supplier", "amount"}, tax_words = {"amount"};

int run_pay(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const bool tax = given.flag("sales-tax");
  if (tax == given.word_if(1).has_value()) given.wrong("expected SUPPLIER AMOUNT, or AMOUNT --sales-tax");
  book::Pay start;
  start.sales_tax = tax;
  const auto pay =
      typed_event(given, terminal, book, tax ? "sales tax paid" : "pay", tax ? tax_words : pay_words, start);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, pay); },
      fmt::format("paid {} {}", pay.amount.shown(book.currency()),
                  tax ? "of the sales tax" : "to " + pay.supplier));
}
}  // namespace

extern const Command pay;
const Command pay{
    {"pay", "[SUPPLIER] AMOUNT", "pays what was on account, or sales tax that was collected",
     "nonrunner pay Harrow Wholesale 120 --purse bank",
     with_new(options_of<book::Pay>(pay_words), {{"sales-tax", "", "the sales tax that is owed"}}), true, ""},
    run_pay};

}  // namespace nonrunner::commands

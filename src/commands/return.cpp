#include "book/events/goods_back.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_return(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const Currency& currency = book.currency();
  const book::Line line = book::expect_line(book, "return", given.word(0));
  book::GoodsBack back;
  back.day = date_of(given, terminal);
  back.line = given.word(0);
  back.quantity = given.quantity("qty").value_or(line.left());
  const book::Refund full = book::full_refund(line, back.quantity);
  back.goods = given.money("goods", currency).value_or(full.goods);
  back.tax = given.money("tax", currency).value_or(full.tax);
  back.restocking = given.money("restocking", currency).value_or(Money{});
  const book::MoneyBack money =
      book::money_back(book, "return", line, back.goods + back.tax - back.restocking,
                       given.text_or("purse", ""), given.money("on-account", currency));
  back.purse = money.purse;
  back.on_account = money.on_account;
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, back); },
      fmt::format("{} of \"{}\" went back: {}", back.quantity.shown(), line.what,
                  in_words(money, line, currency)));
}
}  // namespace

extern const Command return_goods;
const Command return_goods{{"return",
                            "LINE",
                            "goods of a receipt line going back",
                            "nonrunner return R06.2 --restocking 4.80",
                            {{"qty", "N", "how many pieces (else all that are left)"},
                             {"goods", "AMOUNT", "the price given back before tax (else in full)"},
                             {"tax", "AMOUNT", "the tax given back (else in full)"},
                             {"restocking", "AMOUNT", "what the shop kept"},
                             {"purse", "NAME", "where it went (else see below)"},
                             {"on-account", "AMOUNT", "what of it lowers what is owed to the supplier"},
                             date_option(),
                             new_option()},
                            true,
                            "LINE is the id of a receipt line; nonrunner entries TAG --lines lists them.\n"
                            "Where its paper was on account the money lowers what is still owed to the\n"
                            "supplier; the rest goes into the purse that paid."},
                           run_return};

}  // namespace nonrunner::commands

#include "book/events/suggested.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_return(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const Currency& currency = book.currency();
  book::BackSaid said;
  said.day = date_of(given, terminal);
  said.line = given.word(0);
  said.quantity = given.quantity("qty");
  said.goods = given.money("goods", currency);
  said.tax = given.money("tax", currency);
  said.restocking = given.money("restocking", currency);
  said.core_stays = given.flag("core-stays");
  said.from = given.text_or("from", "");
  said.purse = given.text_or("purse", "");
  said.on_account = given.money("on-account", currency);
  const book::SuggestedReturn goods = book::suggested_return(book, said);
  const auto& core = goods.back.core;
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, goods.back); },
      Done([&](const std::string&) {
        return fmt::format("{} of \"{}\" went back: {}{}", goods.back.quantity.shown(), goods.line.what,
                           in_words(goods.money, goods.line, currency),
                           core ? ", with the deposit of " + core->shown(currency) + " on its core" : "");
      }));
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
                             {"core-stays", "", "the core stays out: its deposit does not come along"},
                             {"from", "TAG", "the car that it comes off (a tool, a part that was moved)"},
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

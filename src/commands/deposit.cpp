#include "answers/doubles.h"
#include "book/events/buyer_deposit.h"
#include "commands/ask.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_deposit(const Given& given, Terminal& terminal) {
  using What = book::BuyerDeposit::What;
  if (given.flag("kept") && given.flag("back")) given.wrong("found --kept and --back, expected one of them");
  const What what = given.flag("kept") ? What::kept : given.flag("back") ? What::back : What::taken;
  book::Book book = open_book(given, terminal);
  book::BuyerDeposit deposit{what, date_of(given, terminal), given.word(0),
                             given.word_as_money(1, book.currency()), ""};
  deposit.again = given.flag("again");
  if (what != What::kept) deposit.purse = purse_of(given, terminal, book, "buyer deposit");
  const char* did = what == What::taken  ? "taken from a buyer of"
                    : what == What::kept ? "kept of the deposit on"
                                         : "given back of the deposit on";
  if (!deposit.again)
    deposit.again = is_another_one(answers::another_one(book, book::once(deposit)), terminal);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, deposit); },
      fmt::format("{} {} {}", deposit.amount.shown(book.currency()), did, deposit.vehicle));
}
}  // namespace

extern const Command deposit;
const Command deposit{{"deposit",
                       "TAG AMOUNT",
                       "a buyer's deposit: taken, kept or given back",
                       "nonrunner deposit pip 200 --purse cash",
                       {{"kept", "", "the buyer forfeits it"},
                        {"back", "", "it is given back"},
                        again_option(),
                        purse_option(),
                        date_option(),
                        new_option()},
                       true,
                       ""},
                      run_deposit};

}  // namespace nonrunner::commands

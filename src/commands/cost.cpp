#include "book/events/selling_cost.h"
#include "commands/command.h"
#include "commands/desk.h"

namespace nonrunner::commands {

namespace {
int run_cost(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const book::SellingCost cost{date_of(given, terminal), given.word(0), given.word(2),
                               given.word_as_money(1, book.currency()),
                               purse_of(given, terminal, book, "selling cost")};
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, cost); },
      fmt::format("{} spent on selling {}: {}", cost.amount.shown(book.currency()), cost.vehicle, cost.what));
}
}  // namespace

extern const Command cost;
const Command cost{{"cost",
                    "TAG AMOUNT WHAT",
                    "a cost of selling on its own: an advert, a bank's charge",
                    "nonrunner cost pip 20 advert --purse card",
                    {purse_option(), date_option(), new_option()},
                    true,
                    ""},
                   run_cost};

}  // namespace nonrunner::commands

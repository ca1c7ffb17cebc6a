#include "book/events/selling_cost.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "commands/event_words.h"

namespace nonrunner::commands {

namespace {
constexpr std::initializer_list<const char*> cost_words = {"vehicle", "amount", "what"};

int run_cost(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  const auto cost = typed_event<book::SellingCost>(given, terminal, book, "selling cost", cost_words);
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, cost); },
      fmt::format("{} spent on selling {}: {}", cost.amount.shown(book.currency()), cost.vehicle, cost.what));
}
}  // namespace

extern const Command cost;
const Command cost{{"cost", "TAG AMOUNT WHAT", "a cost of selling on its own: an advert, a bank's charge",
                    "nonrunner cost pip 20 advert --purse card",
                    with_new(options_of<book::SellingCost>(cost_words)), true, ""},
                   run_cost};

}  // namespace nonrunner::commands

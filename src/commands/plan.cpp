#include "book/events/plan.h"

#include "answers/links.h"
#include "book/ledger/names.h"
#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"
#include "text/counted.h"

namespace nonrunner::commands {

namespace {

// AMOUNT may stand before the name, behind it, or nowhere.
void read_line(const Given& given, const Currency& currency, book::Plan& plan) {
  std::size_t from = 1, to = given.count();
  if (to > 2 && is_number_typed(given.word(1)))
    plan.amount = given.word_as_money(from++, currency);
  else if (to > 2 && is_number_typed(given.word(to - 1)))
    plan.amount = given.word_as_money(--to, currency);
  for (std::size_t i = from; i < to; ++i) plan.name += (i > from ? " " : "") + given.word(i);
}

int run_plan(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Plan plan;
  plan.day = date_of(given, terminal);
  plan.vehicle = given.word(0);
  read_line(given, book.currency(), plan);
  if (book::has_vehicle(book, plan.vehicle)) plan.name = answers::name_to_plan(book, plan.vehicle, plan.name);
  if (const auto pieces = given.quantity("qty")) plan.quantity = *pieces;
  plan.hours = given.hours("hours").value_or(Hours{});
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, plan); },
      fmt::format("planned for {}: {}{}{}", plan.vehicle, plan.name,
                  is_zero(plan.amount) ? "" : ", " + plan.amount.shown(book.currency()),
                  plan.hours == Hours{} ? "" : ", " + counted(plan.hours.shown(), "own hour")));
}
}  // namespace

extern const Command plan;
const Command plan{
    {"plan",
     "TAG [AMOUNT] NAME...",
     "a line of a car's budget that its appraisal does not have",
     "nonrunner plan pip 88 heater matrix --hours 3",
     {{"qty", "N", "how many pieces AMOUNT buys (else 1)"},
      {"hours", "N", "own hours that it takes"},
      date_option()},
     true,
     "It is needed for certain from that day on: it stands in what is still to come, in the\n"
     "break-even price and on the shopping list until it is bought, or done TAG NAME --not-needed."},
    run_plan};

}  // namespace nonrunner::commands

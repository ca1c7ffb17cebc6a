#include "book/events/plan.h"

#include "commands/command.h"
#include "commands/desk.h"
#include "exact/ends.h"

namespace nonrunner::commands {

namespace {
int run_plan(const Given& given, Terminal& terminal) {
  book::Book book = open_book(given, terminal);
  book::Plan plan;
  plan.day = date_of(given, terminal);
  plan.vehicle = given.word(0);
  plan.name = given.word(1);
  if (given.count() > 2) plan.amount = given.word_as_money(2, book.currency());
  if (const auto pieces = given.quantity("qty")) plan.quantity = *pieces;
  if (const auto hours = given.text("hours")) {
    try {
      plan.hours = Hours::parse(*hours);
    } catch (const Refusal& refusal) {
      given.wrong(std::string("--hours: ") + refusal.what());
    }
  }
  return record_one(
      book, given, terminal, [&](book::Recording& recording) { return record(recording, plan); },
      fmt::format("planned for {}: {}{}{}", plan.vehicle, plan.name,
                  is_zero(plan.amount) ? "" : ", " + plan.amount.shown(book.currency()),
                  plan.hours == Hours{} ? "" : ", " + plan.hours.shown() + " own hours"));
}
}  // namespace

extern const Command plan;
const Command plan{
    {"plan",
     "TAG NAME [AMOUNT]",
     "a line of a car's budget that its appraisal does not have",
     "nonrunner plan pip \"heater matrix\" 88 --hours 3",
     {{"qty", "N", "how many pieces AMOUNT buys (else 1)"},
      {"hours", "N", "own hours that it takes"},
      date_option()},
     true,
     "It is needed for certain from that day on: it stands in what is still to come, in the\n"
     "break-even price and on the shopping list until it is bought, or done TAG NAME --not-needed."},
    run_plan};

}  // namespace nonrunner::commands

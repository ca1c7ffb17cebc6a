#include "book/events/plan.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/query.h"
#include "exact/ends.h"
#include "figures/every_budget.h"
#include "text/same_name.h"

namespace nonrunner::book {

void fields(Plan& plan, Fields& f) {
  f.day({"date", "the day from which it is planned"}, plan.day);
  f.text({"vehicle", "the car"}, Text::tag, plan.vehicle);
  f.text({"name", "the line of its budget"}, Text::name, plan.name);
  f.money({"amount", "what it will cost, all pieces", Need::may}, plan.amount);
  f.quantity({"qty", "how many pieces (else 1)", Need::may}, plan.quantity, Quantity::of(1000));
  f.hours({"hours", "own hours", Need::may}, plan.hours);
}

EntryId record(Recording& recording, const Plan& plan) {
  const Life life = expect_known(recording, "plan", plan.vehicle);
  if (life.state == State::passed && plan.day > life.passed_day && is_entered_now(recording))
    refuse_left("plan", plan.vehicle, life);
  expect_words("plan", "the name", plan.name);
  const auto is_it = [&](const std::string& other) { return same_name(plan.name, other); };
  if (std::ranges::any_of(figures::names_in_every_budget, is_it) && is_entered_now(recording))
    throw Refusal(fmt::format(
        "plan: found \"{}\", which every car has as a line of its budget, expected another name", plan.name));
  expect_not_negative(recording, "plan", "the amount", plan.amount);
  if (plan.hours < Hours{} || (plan.hours == Hours{} && is_zero(plan.amount)))
    throw Refusal(
        fmt::format("plan: found {} own hours and no amount for \"{}\", expected an amount or hours "
                    "above 0",
                    plan.hours.shown(), plan.name));
  if (plan.quantity <= Quantity{})
    throw Refusal(fmt::format("plan: found {} pieces of \"{}\", expected more than 0", plan.quantity.shown(),
                              plan.name));
  Draft draft(recording, "plan", plan.day);
  draft.mention(plan.vehicle);
  write(draft, recording.currency(), plan);
  draft.detail("planned", {plan.vehicle, plan.name, plan.amount.minor(), plan.quantity.thousandths(),
                           plan.hours.thousandths()});
  return draft.record();
}

std::vector<PlannedLine> planned(const Book& book, const std::string& vehicle, std::optional<Day> on) {
  std::vector<PlannedLine> all;
  each<Day, EntryId, std::string, Money, Quantity, Hours>(
      book,
      "SELECT e.day, e.entry, p.name, p.amount, p.quantity, p.hours FROM planned p JOIN entry e USING "
      "(entry) WHERE "
      "p.vehicle = :tag AND " +
          counts_on(":on") + " ORDER BY e.day, e.entry",
      {{":tag", vehicle}, {":on", on}},
      [&](Day day, EntryId entry, const std::string& name, Money amount, Quantity quantity, Hours hours) {
        all.push_back({day, entry, name, amount, quantity, hours});
      });
  return all;
}

}  // namespace nonrunner::book

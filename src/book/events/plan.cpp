#include "book/events/plan.h"

#include <fmt/format.h>

#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

Plan read_plan(const Table& table, const Currency& currency) {
  table.only({"do", "date", "vehicle", "name", "amount", "qty", "hours"});
  Plan plan{table.day("date"),  table.text("vehicle"),
            table.text("name"), table.money_or("amount", currency, Money{}),
            Quantity::of(1000), Hours{}};
  if (table.has("qty")) plan.quantity = table.quantity("qty");
  if (table.has("hours")) plan.hours = table.hours("hours");
  return plan;
}

EntryId record(Recording& recording, const Plan& plan) {
  expect_known(recording, "plan", plan.vehicle);
  expect_words("plan", "the name", plan.name);
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
  draft.event.text("vehicle", plan.vehicle).text("name", plan.name);
  if (!is_zero(plan.amount)) draft.event.money("amount", plan.amount);
  if (plan.quantity != Quantity::of(1000)) draft.event.number("qty", plan.quantity.shown());
  if (plan.hours > Hours{}) draft.event.number("hours", plan.hours.shown());
  draft.detail("planned", {plan.vehicle, plan.name, plan.amount.minor(), plan.quantity.thousandths(),
                           plan.hours.thousandths()});
  return draft.record();
}

std::vector<PlannedLine> planned(const Book& book, const std::string& vehicle, std::optional<Day> on) {
  std::vector<PlannedLine> all;
  auto& rows = book.query(
      "SELECT e.day, e.entry, p.name, p.amount, p.quantity, p.hours FROM planned p JOIN entry e USING "
      "(entry) "
      "WHERE p.vehicle = ?1 AND " +
      stands("?2") + " ORDER BY e.day, e.entry");
  rows.bind(1, vehicle);
  rows.bind(2, on ? on->iso() : "9999-12-31");
  while (rows.executeStep())
    all.push_back({Day::parse(rows.getColumn(0).getString()), rows.getColumn(1).getInt64(),
                   rows.getColumn(2).getString(), Money::of_minor(rows.getColumn(3).getInt64()),
                   Quantity::of(rows.getColumn(4).getInt64()), Hours::of(rows.getColumn(5).getInt64())});
  return all;
}

}  // namespace nonrunner::book

#include "book/events/hours.h"

#include <fmt/format.h>

#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

Labour read_hours(const Table& table, const Currency& currency) {
  table.only({"do", "date", "vehicle", "operation", "own", "paid", "rate", "purse"});
  Labour labour;
  labour.day = table.day("date");
  labour.vehicle = table.text("vehicle");
  labour.operation = table.text("operation");
  if (table.has("own")) labour.own = table.hours("own");
  if (table.has("paid")) labour.paid = table.hours("paid");
  if (table.has("rate")) labour.rate = table.price("rate", currency);
  labour.purse = table.text_or("purse", "");
  return labour;
}

EntryId record(Recording& recording, const Labour& labour) {
  meet_vehicle(recording, "hours", labour.vehicle);
  if (labour.own < Hours{} || labour.paid < Hours{} || labour.own + labour.paid == Hours{})
    throw Refusal(fmt::format("hours: found {} own and {} paid hours for \"{}\", expected more than 0",
                              labour.own.shown(), labour.paid.shown(), labour.operation));
  if (labour.paid > Hours{} && (labour.rate.fine() <= 0 || labour.purse.empty()))
    throw Refusal(fmt::format(
        "hours: {} paid hours for \"{}\" need what an hour was paid (rate) and the purse that paid it",
        labour.paid.shown(), labour.operation));
  expect_words("hours", "the operation", labour.operation);
  const Life life = life_of(recording.book(), labour.vehicle);
  Draft draft(recording, "hours", labour.day);
  draft.mention(labour.vehicle);
  draft.event.text("vehicle", labour.vehicle).text("operation", labour.operation);
  if (labour.own > Hours{}) draft.event.number("own", labour.own.shown());
  if (labour.paid > Hours{}) {
    draft.event.number("paid", labour.paid.shown()).price("rate", labour.rate).text("purse", labour.purse);
    meet_purse(recording, "hours", labour.purse);
    const Money wage = labour.rate.times(labour.paid);
    draft.post(cost_account(life.state), labour.vehicle, wage);
    draft.post(account::purse, labour.purse, -wage);
  }
  draft.detail("labour", {labour.vehicle, labour.operation, labour.own.thousandths(),
                          labour.paid.thousandths(), labour.rate.fine()});
  return draft.record();
}

}  // namespace nonrunner::book

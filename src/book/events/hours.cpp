#include "book/events/hours.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/events/named.h"
#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

void fields(Labour& labour, Fields& f) {
  f.day({"date", "the day of it"}, labour.day);
  f.text({"vehicle", "the car"}, Text::tag, labour.vehicle);
  f.text({"operation", "what was done"}, Text::operation, labour.operation);
  f.hours({"own", "own hours", Need::may}, labour.own);
  f.hours({"paid", "hours of a helper who is paid", Need::may}, labour.paid);
  f.price({"rate", "what one paid hour costs", Need::may}, labour.rate);
  f.text({"purse", "the purse that pays them", Need::may}, Text::purse, labour.purse);
  f.text({"who", "who was paid", Need::may}, Text::name, labour.who);
  f.flag({"again", "these are others, though the same are there already", Need::may}, labour.again, false);
}

EntryId record(Recording& recording, const Labour& labour) {
  meet_vehicle(recording, "hours", labour.vehicle);
  if (labour.own < Hours{} || labour.paid < Hours{} || labour.own + labour.paid == Hours{})
    throw Refusal(fmt::format("hours: found {} hours{} for \"{}\", expected more than 0", labour.own.shown(),
                              labour.paid == Hours{} ? "" : " and " + labour.paid.shown() + " paid ones",
                              labour.operation));
  if (labour.paid > Hours{} && (labour.rate.fine() <= 0 || labour.purse.empty()))
    throw Refusal(fmt::format(
        "hours: {} paid hours for \"{}\" need what an hour was paid (rate) and the purse that paid it",
        labour.paid.shown(), labour.operation));
  expect_words("hours", "the operation", labour.operation);
  Draft draft(recording, "hours", labour.day);
  draft.mention(labour.vehicle);
  Labour kept = labour;
  if (labour.paid == Hours{}) {  // nobody is paid
    kept.rate = Price{};
    kept.purse.clear();
    kept.who.clear();
  }
  write(draft, recording.currency(), kept);
  if (labour.paid > Hours{}) {
    meet_purse(recording, "hours", labour.purse);
    const Money wage = labour.rate.times(labour.paid);
    draft.post(account::vehicle_cost, labour.vehicle, wage);
    draft.post(account::purse, labour.purse, -wage);
    draft.purpose({labour.vehicle, "paid hours", labour.operation, 0, {}, -wage, {}});
  }
  draft.detail("labour", {labour.vehicle, labour.operation, labour.own.thousandths(),
                          labour.paid.thousandths(), labour.rate.fine()});
  name_facts(draft, "hours", labour.vehicle, {{"helper", kept.who}});
  return draft.record();
}

}  // namespace nonrunner::book

#include "book/events/selling_cost.h"

#include "book/events/fields.h"
#include "book/ledger/checks.h"

namespace nonrunner::book {

void fields(SellingCost& cost, Fields& f) {
  f.day({"date", "the day of it"}, cost.day);
  f.text({"vehicle", "the car"}, Text::tag, cost.vehicle);
  f.text({"what", "what it was spent on"}, Text::words, cost.what);
  f.money({"amount", "how much"}, cost.amount);
  f.text({"purse", "the purse that paid"}, Text::purse, cost.purse);
}

EntryId record(Recording& recording, const SellingCost& cost) {
  expect_was_bought(recording, "selling cost", cost.vehicle,
                    expect_known(recording, "selling cost", cost.vehicle));
  expect_positive(recording, "selling cost", "the amount", cost.amount);
  expect_words("selling cost", "what", cost.what);
  meet_purse(recording, "selling cost", cost.purse);
  Draft draft(recording, "selling cost", cost.day);
  draft.mention(cost.vehicle);
  write(draft, recording.currency(), cost);
  draft.post(account::selling_cost, cost.vehicle, cost.amount);
  draft.post(account::purse, cost.purse, -cost.amount);
  draft.purpose({cost.vehicle, "selling cost", cost.what, 0, {}, -cost.amount, {}});
  return draft.record();
}

}  // namespace nonrunner::book

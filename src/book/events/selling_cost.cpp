#include "book/events/selling_cost.h"

#include "book/ledger/checks.h"

namespace nonrunner::book {

SellingCost read_selling_cost(const Table& table, const Currency& currency) {
  table.only({"do", "date", "vehicle", "what", "amount", "purse"});
  return {table.day("date"), table.text("vehicle"), table.text("what"), table.money("amount", currency),
          table.text("purse")};
}

EntryId record(Recording& recording, const SellingCost& cost) {
  expect_known(recording, "selling cost", cost.vehicle);
  expect_positive(recording, "selling cost", "the amount", cost.amount);
  expect_words("selling cost", "what", cost.what);
  meet_purse(recording, "selling cost", cost.purse);
  Draft draft(recording, "selling cost", cost.day);
  draft.mention(cost.vehicle);
  draft.event.text("vehicle", cost.vehicle)
      .text("what", cost.what)
      .money("amount", cost.amount)
      .text("purse", cost.purse);
  draft.post(account::selling_cost, cost.vehicle, cost.amount);
  draft.post(account::purse, cost.purse, -cost.amount);
  return draft.record();
}

}  // namespace nonrunner::book

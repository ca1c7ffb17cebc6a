#include "book/events/owner.h"

#include "book/ledger/checks.h"

namespace nonrunner::book {

OwnerMoney read_owner(const Table& table, const Currency& currency, bool in) {
  table.only({"do", "date", "purse", "amount"});
  return {in, table.day("date"), table.text("purse"), table.money("amount", currency)};
}

EntryId record(Recording& recording, const OwnerMoney& money) {
  const std::string name = money.in ? "owner in" : "owner out";
  expect_positive(recording, name, "the amount", money.amount);
  meet_purse(recording, name, money.purse);
  Draft draft(recording, name, money.day);
  draft.event.text("purse", money.purse).money("amount", money.amount);
  const Money into_purse = money.in ? money.amount : -money.amount;
  draft.post(account::purse, money.purse, into_purse);
  draft.post(account::owner, "", -into_purse);
  return draft.record();
}

}  // namespace nonrunner::book

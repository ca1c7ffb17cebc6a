#include "book/events/owner.h"

#include "book/events/fields.h"
#include "book/ledger/checks.h"

namespace nonrunner::book {

void fields(OwnerMoney& money, Fields& f) {
  f.day({"date", "the day of it"}, money.day);
  f.text({"purse", "the purse that it goes into or comes out of"}, Text::purse, money.purse);
  f.money({"amount", "how much"}, money.amount);
  f.flag({"again", "this is another one, though the same is there already", Need::may}, money.again, false);
}

EntryId record(Recording& recording, const OwnerMoney& money) {
  const std::string name = money.in ? "owner in" : "owner out";
  expect_positive(recording, name, "the amount", money.amount);
  meet_purse(recording, name, money.purse);
  Draft draft(recording, name, money.day);
  write(draft, recording.currency(), money);
  const Money into_purse = money.in ? money.amount : -money.amount;
  draft.post(account::purse, money.purse, into_purse);
  draft.post(account::owner, "", -into_purse);
  return draft.record();
}

}  // namespace nonrunner::book

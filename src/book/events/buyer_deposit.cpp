#include "book/events/buyer_deposit.h"

#include <fmt/format.h>

#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

BuyerDeposit read_buyer_deposit(const Table& table, const Currency& currency, BuyerDeposit::What what) {
  // A kept deposit moves through no purse; the key is allowed, as the others have it.
  table.only({"do", "date", "vehicle", "amount", "purse"});
  return {what, table.day("date"), table.text("vehicle"), table.money("amount", currency),
          what == BuyerDeposit::What::kept ? table.text_or("purse", "") : table.text("purse")};
}

EntryId record(Recording& recording, const BuyerDeposit& deposit) {
  using What = BuyerDeposit::What;
  const std::string name = deposit.what == What::taken  ? "buyer deposit"
                           : deposit.what == What::kept ? "deposit kept"
                                                        : "deposit back";
  expect_known(recording, name, deposit.vehicle);
  expect_positive(recording, name, "the amount", deposit.amount);
  const Money held = -balance_of(recording.book(), account::buyer_deposit, deposit.vehicle).amount;
  if (deposit.what != What::taken && deposit.amount > held)
    throw Refusal(fmt::format("{}: {} for {}, but {} is held for it", name,
                              deposit.amount.plain(recording.currency()), deposit.vehicle,
                              held.plain(recording.currency())));
  Draft draft(recording, name, deposit.day);
  draft.mention(deposit.vehicle);
  draft.event.text("vehicle", deposit.vehicle).money("amount", deposit.amount);
  const Money into = deposit.what == What::taken ? -deposit.amount : deposit.amount;
  draft.post(account::buyer_deposit, deposit.vehicle, into);
  if (deposit.what == What::kept) {
    draft.post(account::deposit_kept, deposit.vehicle, -into);
  } else {
    meet_purse(recording, name, deposit.purse);
    draft.event.text("purse", deposit.purse);
    draft.post(account::purse, deposit.purse, -into);
  }
  return draft.record();
}

}  // namespace nonrunner::book

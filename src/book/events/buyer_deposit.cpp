#include "book/events/buyer_deposit.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

void fields(BuyerDeposit& deposit, Fields& f) {
  const bool kept = deposit.what == BuyerDeposit::What::kept;
  f.day({"date", "the day of it"}, deposit.day);
  f.text({"vehicle", "the car that it is for"}, Text::tag, deposit.vehicle);
  f.money({"amount", "how much"}, deposit.amount);
  // A kept deposit moves through no purse; the key is allowed, as the others have it.
  f.text({"purse", kept ? "none is needed" : "the purse that it went through", kept ? Need::may : Need::must},
         Text::purse, deposit.purse);
  f.flag({"again", "this is another one, though the same is there already", Need::may}, deposit.again, false);
}

EntryId record(Recording& recording, const BuyerDeposit& deposit) {
  using What = BuyerDeposit::What;
  const std::string name = deposit.what == What::taken  ? "buyer deposit"
                           : deposit.what == What::kept ? "deposit kept"
                                                        : "deposit back";
  const Life life = expect_known(recording, name, deposit.vehicle);
  if (deposit.what == What::taken) expect_was_bought(recording, name, deposit.vehicle, life);
  // A late paper of a deposit from before the sale is proper, and what is put right was there before it. On the day of
  // the sale the sale has said which deposit it used.
  if (deposit.what == What::taken && life.ended != 0 && deposit.day >= life.ended_said &&
      is_entered_now(recording) && recording.held.empty())
    refuse_ended(name, deposit.vehicle, life);
  expect_positive(recording, name, "the amount", deposit.amount);
  const Money held = -balance_of(recording.book(), account::buyer_deposit, deposit.vehicle).amount;
  if (deposit.what != What::taken && deposit.amount > held)
    throw Refusal(fmt::format("{}: {} for {}, but {} is held for it", name,
                              deposit.amount.plain(recording.currency()), deposit.vehicle,
                              held.plain(recording.currency())));
  Draft draft(recording, name, deposit.day);
  BuyerDeposit kept = deposit;
  if (deposit.what == What::kept) kept.purse.clear();
  write(draft, recording.currency(), kept);
  draft.mention(deposit.vehicle);
  const Money into = deposit.what == What::taken ? -deposit.amount : deposit.amount;
  draft.post(account::buyer_deposit, deposit.vehicle, into);
  draft.purpose({deposit.vehicle, "due back", "buyer's deposit", 0, {}, -into, {}});
  if (deposit.what == What::kept) {
    draft.post(account::deposit_kept, deposit.vehicle, -into);
    draft.purpose({deposit.vehicle, "deposit kept", "buyer's deposit kept", 0, {}, into, {}});
  } else {
    meet_purse(recording, name, deposit.purse);
    draft.post(account::purse, deposit.purse, -into);
  }
  return draft.record();
}

}  // namespace nonrunner::book

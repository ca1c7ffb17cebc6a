#include "book/events/transfer.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

void fields(Transfer& transfer, Fields& f) {
  f.day({"date", "the day of it"}, transfer.day);
  f.text({"from", "the car that it comes off; or tools: their cost is charged to a car only so"}, Text::tag,
         transfer.from);
  f.text({"to", "the car that it goes to; or overhead: tools kept as an asset that are worn out"}, Text::tag,
         transfer.to);
  f.text({"what", "what is moved"}, Text::words, transfer.what);
  f.money({"amount", "at what cost"}, transfer.amount);
}

EntryId record(Recording& recording, const Transfer& transfer) {
  const bool tools = transfer.from == account::tools;
  const Life from = tools ? Life{} : expect_known(recording, "transfer", transfer.from);
  if (transfer.from == transfer.to)
    throw Refusal("transfer: from and to are both " + transfer.from + ", expected two cars");
  expect_positive(recording, "transfer", "the amount", transfer.amount);
  const bool spent = tools && transfer.to == account::overhead;
  const Money kept = balance_of(recording.book(), account::tools, account::tools_kept).amount;
  const Money most = spent   ? kept
                     : tools ? kept + balance_of(recording.book(), account::tools, "").amount
                             : carried(recording.book(), transfer.from);
  if ((from.state == State::owned || from.state == State::considered) && transfer.amount > most)
    throw Refusal(fmt::format("transfer: {} off {}, which carries a cost of {}; expected at most that",
                              transfer.amount.plain(recording.currency()), transfer.from,
                              most.plain(recording.currency())));
  expect_words("transfer", "what", transfer.what);
  if (!spent) meet_vehicle(recording, "transfer", transfer.to);
  Draft draft(recording, "transfer", transfer.day);
  if (!tools) draft.mention(transfer.from);
  if (!spent) draft.mention(transfer.to);
  write(draft, recording.currency(), transfer);
  if (spent)
    draft.post(account::overhead, "", transfer.amount);
  else
    draft.post(cost_account(life_of(recording.book(), transfer.to).state), transfer.to, transfer.amount);
  if (tools) {
    const Money off_kept = std::clamp(kept, Money{}, transfer.amount);
    draft.post(account::tools, account::tools_kept, -off_kept);
    draft.post(account::tools, "", off_kept - transfer.amount);
  } else {
    draft.post(cost_account(from.state), transfer.from, -transfer.amount);
  }
  return draft.record();
}

}  // namespace nonrunner::book

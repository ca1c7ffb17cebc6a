#include "book/events/tool_deposit.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "exact/hint.h"
#include "exact/nearest.h"

namespace nonrunner::book {

void fields(ToolDeposit& deposit, Fields& f) {
  f.day({"date", "the day of it"}, deposit.day);
  f.text({"supplier", "who lent it", Need::may}, Text::supplier, deposit.supplier);
  f.text({"what", "the tool"}, Text::name, deposit.what);
  f.money({"amount", deposit.back ? "what came back" : "the deposit"}, deposit.amount);
  f.text({"purse", "the purse that it went through", deposit.back ? Need::may : Need::must}, Text::purse,
         deposit.purse);
  f.day({"back_by", "the last day", Need::may}, deposit.back_by);
  if (deposit.back) f.money({"kept", "what of it never comes back: overhead", Need::may}, deposit.kept);
}

EntryId record(Recording& recording, const ToolDeposit& deposit) {
  const std::string name = deposit.back ? "tool deposit back" : "tool deposit";
  expect_words(name, "what", deposit.what);
  const Money gone = deposit.amount + deposit.kept;
  expect_not_negative(recording, name, "kept", deposit.kept);
  if (deposit.back)
    expect_not_negative(recording, name, "the amount", deposit.amount);
  else
    expect_positive(recording, name, "the amount", deposit.amount);
  if (deposit.back) {
    const Money out = balance_of(recording.book(), account::tool_deposit, deposit.what).amount;
    if (is_zero(gone) && !is_zero(out))
      throw hinted<Refusal>(name + ": the amount is 0, expected more than 0", {Action::no_more_comes, {}});
    if (gone > out || is_zero(gone)) {
      const auto known = names_of(recording.book(), account::tool_deposit);
      throw Refusal(
          fmt::format("{}: {} for \"{}\", but {} is out for it{}", name, gone.plain(recording.currency()),
                      deposit.what, out.plain(recording.currency()),
                      is_zero(out) ? (std::find(known.begin(), known.end(), deposit.what) != known.end()
                                          ? "; it came back already"
                                          : did_you_mean(deposit.what, known))
                                   : ""));
    }
  }
  if (!is_zero(deposit.amount)) {
    if (deposit.purse.empty())
      throw Refusal(fmt::format("{}: {} came back and no purse took it; say the purse", name,
                                deposit.amount.plain(recording.currency())));
    meet_purse(recording, name, deposit.purse);
  }
  if (deposit.back_by && !deposit.back)
    expect_still_ahead(recording, name, "the deposit on \"" + deposit.what + "\"", *deposit.back_by,
                       deposit.day);
  Draft draft(recording, name, deposit.day);
  write(draft, recording.currency(), deposit);
  draft.post(account::tool_deposit, deposit.what, deposit.back ? -gone : gone);
  draft.post(account::purse, deposit.purse, deposit.back ? deposit.amount : -deposit.amount);
  draft.post(account::overhead, "", deposit.kept);
  if (!deposit.back) draft.detail("deposit_by", {deposit.what, deposit.supplier, cell(deposit.back_by)});
  return draft.record();
}

}  // namespace nonrunner::book

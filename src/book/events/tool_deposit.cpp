#include "book/events/tool_deposit.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/ledger/checks.h"
#include "exact/hint.h"
#include "exact/nearest.h"

namespace nonrunner::book {

ToolDeposit read_tool_deposit(const Table& table, const Currency& currency, bool back) {
  if (back)
    table.only({"do", "date", "supplier", "what", "amount", "purse", "back_by", "kept"});
  else
    table.only({"do", "date", "supplier", "what", "amount", "purse", "back_by"});
  return {back,
          table.day("date"),
          table.text_or("supplier", ""),
          table.text("what"),
          table.money("amount", currency),
          back ? table.text_or("purse", "") : table.text("purse"),
          table.day_if("back_by"),
          table.money_or("kept", currency, Money{})};
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
  Draft draft(recording, name, deposit.day);
  draft.event.text("supplier", deposit.supplier).text("what", deposit.what).money("amount", deposit.amount);
  draft.event.text("purse", deposit.purse).day("back_by", deposit.back_by);
  if (!is_zero(deposit.kept)) draft.event.money("kept", deposit.kept);
  draft.post(account::tool_deposit, deposit.what, deposit.back ? -gone : gone);
  draft.post(account::purse, deposit.purse, deposit.back ? deposit.amount : -deposit.amount);
  draft.post(account::overhead, "", deposit.kept);
  if (!deposit.back) draft.detail("deposit_by", {deposit.what, deposit.supplier, cell(deposit.back_by)});
  return draft.record();
}

}  // namespace nonrunner::book

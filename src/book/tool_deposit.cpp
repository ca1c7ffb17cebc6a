#include "book/tool_deposit.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/checks.h"
#include "exact/ends.h"
#include "exact/nearest.h"

namespace nonrunner::book {

ToolDeposit read_tool_deposit(const Table& table, const Currency& currency, bool back) {
  table.only({"do", "date", "supplier", "what", "amount", "purse", "back_by"});
  return {back,
          table.day("date"),
          table.text_or("supplier", ""),
          table.text("what"),
          table.money("amount", currency),
          table.text("purse"),
          table.day_if("back_by")};
}

EntryId record(Recording& recording, const ToolDeposit& deposit) {
  const std::string name = deposit.back ? "tool deposit back" : "tool deposit";
  expect_words(name, "what", deposit.what);
  expect_positive(recording, name, "the amount", deposit.amount);
  if (deposit.back) {
    const Money out = balance_of(recording.book(), account::tool_deposit, deposit.what).amount;
    if (deposit.amount > out) {
      const auto known = names_of(recording.book(), account::tool_deposit);
      throw Refusal(fmt::format(
          "{}: {} for \"{}\", but {} is out for it{}", name, deposit.amount.plain(recording.currency()),
          deposit.what, out.plain(recording.currency()),
          is_zero(out) ? (std::find(known.begin(), known.end(), deposit.what) != known.end()
                              ? "; it came back already"
                              : did_you_mean(deposit.what, known))
                       : ""));
    }
  }
  meet_purse(recording, name, deposit.purse);
  Draft draft(recording, name, deposit.day);
  draft.event.text("supplier", deposit.supplier).text("what", deposit.what).money("amount", deposit.amount);
  draft.event.text("purse", deposit.purse).day("back_by", deposit.back_by);
  const Money out = deposit.back ? -deposit.amount : deposit.amount;
  draft.post(account::tool_deposit, deposit.what, out);
  draft.post(account::purse, deposit.purse, -out);
  if (!deposit.back) draft.detail("deposit_by", {deposit.what, deposit.supplier, cell(deposit.back_by)});
  return draft.record();
}

}  // namespace nonrunner::book

#include "book/events/core_back.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/ledger/checks.h"
#include "exact/ends.h"
#include "exact/spread.h"

namespace nonrunner::book {

CoreBack read_core_back(const Table& table, const Currency& currency) {
  table.only({"do", "date", "line", "qty", "amount", "purse", "on_account"});
  return {table.day("date"),
          table.text("line"),
          table.has("qty") ? table.quantity("qty") : Quantity::of(1000),
          table.money("amount", currency),
          table.text_or("purse", ""),
          table.has("on_account") ? std::optional(table.money("on_account", currency)) : std::nullopt};
}

Money core_deposit_of(const Line& line, Quantity quantity) {
  // The last cores take the rest, whatever the earlier ones took: a step that was taken back leaves the
  // others as they were rounded.
  if (line.core_back + quantity == line.quantity) return line.core_due();
  return std::min(line.core_due(), step_share(line.deposit(), line.quantity.thousandths(),
                                              line.core_back.thousandths(), quantity.thousandths()));
}

void post_core_back(Draft& draft, Recording& recording, const std::string& event, const std::string& id,
                    Quantity quantity, Money received) {
  const Line line = expect_line(recording.book(), event, id);
  const Currency& currency = recording.currency();
  if (is_zero(line.core))
    throw Refusal(fmt::format("{}: line {} (\"{}\") carries no core deposit", event, id, line.what));
  if (line.core_back == line.quantity)
    throw Refusal(fmt::format("{}: the core of line {} (\"{}\") went back already", event, id, line.what));
  if (quantity <= Quantity{} || line.core_back + quantity > line.quantity)
    throw Refusal(fmt::format(
        "{}: {} of line {} (\"{}\"), expected more than 0 and at most {}, as {} of {} went back already",
        event, quantity.shown(), id, line.what, (line.quantity - line.core_back).shown(),
        line.core_back.shown(), line.quantity.shown()));
  const Money deposit = core_deposit_of(line, quantity);
  if (is_negative(received) || received > deposit)
    throw Refusal(
        fmt::format("{}: {} for the core of line {} (\"{}\"), expected 0 to {}, the deposit that was paid",
                    event, received.plain(currency), id, line.what, deposit.plain(currency)));
  const Money short_by = deposit - received;
  draft.post(account::core_deposit, line.id, -deposit);
  if (line.kind == "stock" && line.shares.empty())
    draft.post(account::overhead, "", short_by);
  else
    post_to_line(draft, recording.book(), line, short_by);
  draft.detail("given_back", {line.number, std::string("core"), quantity.thousandths(), received.minor(),
                              std::int64_t{0}, short_by.minor()});
  for (const Share& share : line.shares) draft.mention(share.vehicle);
}

EntryId record(Recording& recording, const CoreBack& back) {
  Draft draft(recording, "core back", back.day);
  draft.event.text("line", back.line).number("qty", back.quantity.shown()).money("amount", back.amount);
  post_core_back(draft, recording, "core back", back.line, back.quantity, back.amount);
  const Line line = expect_line(recording.book(), "core back", back.line);
  post(draft, recording, "core back", line,
       money_back(recording.book(), "core back", line, back.amount, back.purse, back.on_account));
  return draft.record();
}

}  // namespace nonrunner::book

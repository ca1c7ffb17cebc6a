#include "book/events/core_back.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/moved.h"
#include "exact/ends.h"
#include "exact/spread.h"

namespace nonrunner::book {

void fields(CoreBack& back, Fields& f) {
  f.day({"date", "the day of it"}, back.day);
  f.text({"line", "the line that it was bought with"}, Text::line, back.line);
  f.quantity({"qty", "how many pieces (else 1)", Need::kept}, back.quantity, Quantity::of(1000));
  f.money({"amount", "what came back; what is short becomes cost"}, back.amount);
  f.money({"on_account",
           "what of it lowers what is owed to the supplier (else off what is owed where the paper "
           "was on account)",
           Need::may},
          back.on_account);
  f.text({"purse", "where the rest went (else the purse that paid)", Need::may}, Text::purse, back.purse);
  f.money({"deposit", "what of the line's deposit they carry, where it does not part evenly (else reckoned)",
           Need::may},
          back.deposit);
}

Money core_deposit_of(const Line& line, Quantity quantity) {
  // The last cores take the rest, whatever the earlier ones took: a step that was taken back leaves the
  // others as they were rounded.
  if (line.core_back + quantity == line.quantity) return line.core_due();
  return std::min(line.core_due(), step_share(line.deposit(), line.quantity.thousandths(),
                                              line.core_back.thousandths(), quantity.thousandths()));
}

std::optional<Money> deposit_decided(const Line& line, Quantity quantity, const std::optional<Money>& said) {
  if (said) return said;
  const bool can_be =
      quantity > Quantity{} && line.core_back + quantity <= line.quantity && !is_zero(line.core);
  if (!can_be || quantity == line.quantity) return std::nullopt;
  const Money deposit = core_deposit_of(line, quantity);
  const bool even = Price::of(deposit).times(line.quantity) == Price::of(line.deposit()).times(quantity);
  return even ? std::nullopt : std::optional(deposit);
}

namespace {
// What is said of the deposit is less than a unit for each piece away from their part of it; the last take the rest.
void check_deposit(const std::string& event, const Line& line, const CoresGone& cores,
                   const Currency& currency) {
  if (!cores.deposit) return;
  const Money part = Money::of_minor(scaled(line.deposit().minor(), cores.quantity.thousandths(),
                                            line.quantity.thousandths(), Rounding::half_away));
  const Money off = Money::of_minor(1 + line.quantity.thousandths() / 1000);
  const bool last = line.core_back + cores.quantity == line.quantity;
  const Money least = last ? line.core_due() : std::max(part - off, Money{}),
              most = last ? line.core_due() : std::min(part + off, line.core_due());
  if (*cores.deposit >= least && *cores.deposit <= most) return;
  throw Refusal(fmt::format("{}: a deposit of {} on the core of line {} (\"{}\"), expected {}{}", event,
                            cores.deposit->plain(currency), cores.line, line.what, least.plain(currency),
                            last ? ", what is left of it" : " to " + most.plain(currency)));
}

// To the car that has the part, where it was moved off the one that it was bought for; of several those that were not
// moved go back first.
void post_short(Draft& draft, const Book& book, const Line& line, Money short_by) {
  const std::string what = "core of " + line.what + " came back short";
  const auto holder = holder_of(book, line.number, draft.day());
  const bool is_at_first = is_of_several(line) && stands_at_first(book, line, draft.day()) > Money{};
  if (!holder || is_at_first) return post_to_line(draft, line, short_by, "other cost", what);
  draft.mention(*holder);
  draft.post(account::vehicle_cost, *holder, short_by);
  draft.purpose({*holder, "other cost", what, line.number, {}, -short_by, {}});
}
}  // namespace

void post_core_back(Draft& draft, Recording& recording, const std::string& event, const CoresGone& cores) {
  const std::string& id = cores.line;
  const Quantity quantity = cores.quantity;
  const Money received = cores.received;
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
  check_deposit(event, line, cores, currency);
  const Money deposit = cores.deposit.value_or(core_deposit_of(line, quantity));
  if (is_negative(received) || received > deposit)
    throw Refusal(
        fmt::format("{}: {} for the core of line {} (\"{}\"), expected 0 to {}, the deposit that was paid",
                    event, received.plain(currency), id, line.what, deposit.plain(currency)));
  const Money short_by = deposit - received;
  draft.post(account::core_deposit, line.id, -deposit);
  deposit_of_line(draft, line, deposit, "core of " + line.what + " went back");
  if (line.kind == "stock" && line.shares.empty())
    draft.post(account::overhead, "", short_by);
  else if (!is_zero(short_by))
    post_short(draft, recording.book(), line, short_by);
  draft.detail("given_back", {line.number, std::string("core"), quantity.thousandths(), received.minor(),
                              std::int64_t{0}, short_by.minor()});
  for (const Share& share : line.shares) draft.mention(share.vehicle);
}

EntryId record(Recording& recording, const CoreBack& back) {
  Draft draft(recording, "core back", back.day);
  const Line line = expect_line(recording.book(), "core back", back.line);
  const auto deposit = deposit_decided(line, back.quantity, back.deposit);
  post_core_back(draft, recording, "core back", {back.line, back.quantity, back.amount, deposit});
  const MoneyBack money =
      money_back(recording.book(), "core back", line, back.amount, back.purse, back.on_account);
  CoreBack kept = back;
  kept.deposit = deposit;
  keep(money, kept.on_account, kept.purse);
  write(draft, recording.currency(), kept);
  post(draft, recording, "core back", line, money);
  return draft.record();
}

}  // namespace nonrunner::book

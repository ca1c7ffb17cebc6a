#include "book/recover.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

Recover read_recover(const Table& table, const Currency& currency, bool back) {
  table.only({"do", "date", "vehicle", "what", "amount", "purse"});
  return {back, table.day("date"), table.text("vehicle"), table.text("what"), table.money("amount", currency), table.text("purse")};
}

EntryId record(Recording& recording, const Recover& recover) {
  const Book& book = recording.book();
  const std::string name = recover.back ? "recover back" : "recover";
  const Life life = expect_known(recording, name, recover.vehicle);
  expect_positive(recording, name, "the amount", recover.amount);
  const bool in_inventory = life.state == State::owned || life.state == State::considered;
  const Money income = -balance_of(book, account::recovered_income, recover.vehicle).amount;
  Money on_cost, on_income;  // how the amount is shared out between the two
  if (!recover.back) {
    const Money still = in_inventory ? std::max(carried(book, recover.vehicle), Money{}) : Money{};
    on_cost = std::min(recover.amount, still);
    on_income = recover.amount - on_cost;
  } else {
    const Money deducted = in_inventory ? -balance_of(book, account::recovered, recover.vehicle).amount : Money{};
    if (recover.amount > income + deducted)
      throw Refusal(fmt::format("recover back: {} for \"{}\", but {} was recovered from {}", recover.amount.plain(recording.currency()),
                                recover.what, (income + deducted).plain(recording.currency()), recover.vehicle));
    on_income = -std::min(recover.amount, income);
    on_cost = -(recover.amount + on_income);
  }
  meet_purse(recording, name, recover.purse);
  Draft draft(recording, name, recover.day);
  draft.mention(recover.vehicle);
  draft.event.text("vehicle", recover.vehicle).text("what", recover.what).money("amount", recover.amount).text("purse", recover.purse);
  draft.post(account::purse, recover.purse, on_cost + on_income);
  draft.post(account::recovered, recover.vehicle, -on_cost);
  draft.post(account::recovered_income, recover.vehicle, -on_income);
  return draft.record();
}

}  // namespace nonrunner::book

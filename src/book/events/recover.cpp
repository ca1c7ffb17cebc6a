#include "book/events/recover.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

void fields(Recover& recover, Fields& f) {
  f.day({"date", "the day of it"}, recover.day);
  f.text({"vehicle", "the car that it came off"}, Text::tag, recover.vehicle);
  f.text({"what", "what was sold off it"}, Text::words, recover.what);
  f.money({"amount", "how much"}, recover.amount);
  f.text({"purse", "the purse that it went through"}, Text::purse, recover.purse);
}

Money recovered_in_all(const Book& book, const std::string& vehicle) {
  auto& sum = book.query(
      "SELECT coalesce(-sum(p.amount), 0) FROM account a JOIN posting p USING (account) JOIN live_entry e "
      "USING (entry) "
      "WHERE a.name = ? AND a.kind IN ('recovered', 'recovered income') AND e.kind IN ('recover', 'recover "
      "back')");
  sum.bind(1, vehicle);
  sum.executeStep();
  const Money recovered = Money::of_minor(sum.getColumn(0).getInt64());
  sum.tryReset();
  return recovered;
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
    const Money recovered = recovered_in_all(book, recover.vehicle);
    if (recover.amount > recovered)
      throw Refusal(fmt::format("recover back: {} for \"{}\", but {} was recovered from {}",
                                recover.amount.plain(recording.currency()), recover.what,
                                recovered.plain(recording.currency()), recover.vehicle));
    on_income = in_inventory ? -std::min(recover.amount, std::max(income, Money{})) : -recover.amount;
    on_cost = -(recover.amount + on_income);
  }
  expect_words(name, "what", recover.what);
  meet_purse(recording, name, recover.purse);
  Draft draft(recording, name, recover.day);
  draft.mention(recover.vehicle);
  write(draft, recording.currency(), recover);
  draft.post(account::purse, recover.purse, on_cost + on_income);
  draft.post(account::recovered, recover.vehicle, -on_cost);
  draft.post(account::recovered_income, recover.vehicle, -on_income);
  return draft.record();
}

}  // namespace nonrunner::book

#include "book/events/recover.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/position.h"
#include "exact/ends.h"

namespace nonrunner::book {

void fields(Recover& recover, Fields& f) {
  f.day({"date", "the day of it"}, recover.day);
  f.text({"vehicle", "the car that it came off"}, Text::tag, recover.vehicle);
  f.text({"what", "what was sold off it"}, Text::words, recover.what);
  f.money({"amount", "how much"}, recover.amount);
  f.text({"purse", "the purse that it went through"}, Text::purse, recover.purse);
  f.flag({"again", "this is another one, though the same is there already", Need::may}, recover.again, false);
}

Money recovered_in_all(const Book& book, const std::string& vehicle) {
  const Position position = position_of(book, vehicle);
  return position.recovered_before + position.recovered_after;
}

EntryId record(Recording& recording, const Recover& recover) {
  const Book& book = recording.book();
  const std::string name = recover.back ? "recover back" : "recover";
  expect_known(recording, name, recover.vehicle);
  expect_positive(recording, name, "the amount", recover.amount);
  if (const Money recovered = recovered_in_all(book, recover.vehicle);
      recover.back && recover.amount > recovered)
    throw Refusal(fmt::format("recover back: {} for \"{}\", but {} was recovered from {}",
                              recover.amount.plain(recording.currency()), recover.what,
                              recovered.plain(recording.currency()), recover.vehicle));
  expect_words(name, "what", recover.what);
  meet_purse(recording, name, recover.purse);
  Draft draft(recording, name, recover.day);
  draft.mention(recover.vehicle);
  write(draft, recording.currency(), recover);
  const Money in = recover.back ? -recover.amount : recover.amount;
  draft.post(account::purse, recover.purse, in);
  draft.post(account::recovered, recover.vehicle, -in);
  draft.purpose({recover.vehicle, "recovered", recover.what, 0, {}, in, {}});
  return draft.record();
}

}  // namespace nonrunner::book

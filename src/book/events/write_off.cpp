#include "book/events/write_off.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/position.h"
#include "book/ledger/query.h"
#include "exact/hint.h"

namespace nonrunner::book {

void fields(WriteOff& write_off, Fields& f) {
  f.day({"date", "the day of it"}, write_off.day);
  f.text({"vehicle", "the car of which the last part is gone"}, Text::tag, write_off.vehicle);
}

EntryId record(Recording& recording, const WriteOff& write_off) {
  const Book& book = recording.book();
  const Life life = expect_known(recording, "write off", write_off.vehicle);
  const Day day = open_day(book, write_off.day);
  expect_not_ended(book, "write off", write_off.vehicle, day);
  if (life.state != State::owned)
    throw hinted<Refusal>(fmt::format("write off: {} is {}, expected a car that was bought",
                                      write_off.vehicle, shown(life.state)),
                          {Action::pass, {{"tag", write_off.vehicle}}});
  // One seat that was sold is no dismantling: a whole car would be a loss by one slip.
  const Position stands = position_of(book, write_off.vehicle);
  const bool much_is_left = is_zero(stands.recovered_before) || stands.carried + stands.carried > stands.cost;
  if (life.parted == 0 && much_is_left && is_entered_now(recording) && !recording.corrects)
    throw Refusal(fmt::format(
        "write off: {} was bought on {} and nothing says that it went to pieces, expected a car in pieces; "
        "say first that it goes to pieces, and what its parts still bring (0, where that is nothing)",
        write_off.vehicle, life.bought_said.iso()));
  if (first<std::string>(book, "SELECT operation FROM clock WHERE vehicle = :tag",
                         {{":tag", write_off.vehicle}}))
    throw hinted<Refusal>(
        fmt::format("write off: a clock still runs on {}; stop it first", write_off.vehicle),
        {Action::stop_clock, {}});
  if (day < life.bought_day || (is_entered_now(recording) && write_off.day < life.bought_said))
    throw Refusal(fmt::format("write off: the day {} lies before the purchase of {} on {}",
                              write_off.day.iso(), write_off.vehicle, life.bought_said.iso()));
  Draft draft(recording, "write off", write_off.day);
  draft.mention(write_off.vehicle);
  draft.detail("life", {write_off.vehicle, std::string("finished")});
  write(draft, recording.currency(), write_off);
  return draft.record();
}

}  // namespace nonrunner::book

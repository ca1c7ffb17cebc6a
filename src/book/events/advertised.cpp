#include "book/events/advertised.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

void fields(Advertised& advertised, Fields& f) {
  f.day({"date", "the day from which it is asked"}, advertised.day);
  f.text({"vehicle", "the car"}, Text::tag, advertised.vehicle);
  f.money({"price", "the price asked"}, advertised.price);
}

EntryId record(Recording& recording, const Advertised& advertised) {
  const Life life = expect_known(recording, "advertised", advertised.vehicle);
  expect_positive(recording, "advertised", "the price", advertised.price);
  if (life.ended != 0) refuse_ended("advertised", advertised.vehicle, life);
  expect_was_bought(recording, "advertised", advertised.vehicle, life);
  if (life.parted != 0)
    throw Refusal(fmt::format("advertised: {} is in pieces since {}, expected a car that is sold whole",
                              advertised.vehicle, life.in_pieces_since->iso()));
  if (life.bought != 0 && open_day(recording.book(), advertised.day) < life.bought_day)
    throw Refusal(fmt::format("advertised: the day {} lies before the purchase of {} on {}",
                              advertised.day.iso(), advertised.vehicle, life.bought_day.iso()));
  Draft draft(recording, "advertised", advertised.day);
  draft.mention(advertised.vehicle);
  write(draft, recording.currency(), advertised);
  draft.detail("advert", {advertised.vehicle, advertised.price.minor()});
  return draft.record();
}

}  // namespace nonrunner::book

#include "book/events/advertised.h"

#include <fmt/format.h>

#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

Advertised read_advertised(const Table& table, const Currency& currency) {
  table.only({"do", "date", "vehicle", "price"});
  return {table.day("date"), table.text("vehicle"), table.money("price", currency)};
}

EntryId record(Recording& recording, const Advertised& advertised) {
  const Life life = expect_known(recording, "advertised", advertised.vehicle);
  expect_positive(recording, "advertised", "the price", advertised.price);
  if (life.ended != 0) refuse_ended("advertised", advertised.vehicle, life);
  if (life.parted != 0)
    throw Refusal(fmt::format("advertised: {} is in pieces since {}, expected a car that is sold whole",
                              advertised.vehicle, life.in_pieces_since->iso()));
  if (life.bought != 0 && advertised.day < life.bought_day)
    throw Refusal(fmt::format("advertised: the day {} lies before the purchase of {} on {}",
                              advertised.day.iso(), advertised.vehicle, life.bought_day.iso()));
  Draft draft(recording, "advertised", advertised.day);
  draft.mention(advertised.vehicle);
  draft.event.text("vehicle", advertised.vehicle).money("price", advertised.price);
  draft.detail("advert", {advertised.vehicle, advertised.price.minor()});
  return draft.record();
}

}  // namespace nonrunner::book

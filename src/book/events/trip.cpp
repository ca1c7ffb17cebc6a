#include "book/events/trip.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/events/named.h"
#include "book/ledger/checks.h"
#include "exact/ends.h"
#include "exact/spread.h"

namespace nonrunner::book {

void fields(Trip& trip, Fields& f) {
  f.day({"date", "the day of it"}, trip.day);
  f.shares({"vehicle", "the car that it was for", Need::may}, {"share", "or several, by weight", Need::may},
           trip.shares, "");
  f.distance({"distance", "how far, there and back"}, trip.distance);
  f.text({"why", "what for"}, Text::words, trip.why);
  f.text({"from", "where from", Need::may}, Text::name, trip.from);
  f.text({"to", "where to", Need::may}, Text::name, trip.to);
  f.flag({"again", "this is another one, though the same is there already", Need::may}, trip.again, false);
}

EntryId record(Recording& recording, const Trip& trip) {
  if (trip.shares.empty())
    throw Refusal("trip: found no car, expected a vehicle or a share = { TAG = weight }");
  if (trip.shares.size() > 100)
    throw Refusal(
        fmt::format("trip: found {} cars, expected at most 100; enter it as several", trip.shares.size()));
  if (trip.distance <= Distance{})
    throw Refusal(fmt::format("trip: found the distance {}, expected more than 0", trip.distance.shown()));
  expect_words("trip", "the purpose", trip.why);
  Draft draft(recording, "trip", trip.day);
  std::vector<std::int64_t> weights;
  for (const Share& share : trip.shares) weights.push_back(share.weight);
  // spread() knows thousandths of a mile as well as cents: whole units, none lost.
  const std::vector<Money> parts = spread(Money::of_minor(trip.distance.thousandths()), weights);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    meet_vehicle(recording, "trip", trip.shares[i].vehicle);
    draft.mention(trip.shares[i].vehicle);
    if (!is_zero(parts[i])) draft.detail("trip", {trip.shares[i].vehicle, parts[i].minor()});
    name_facts(draft, "trip", trip.shares[i].vehicle, {{"from", trip.from}, {"to", trip.to}});
  }
  write(draft, recording.currency(), trip);
  draft.detail("errand", {trip.why});
  return draft.record();
}

}  // namespace nonrunner::book

#include "book/events/trip.h"

#include <fmt/format.h>

#include "book/ledger/checks.h"
#include "exact/ends.h"
#include "exact/spread.h"

namespace nonrunner::book {

Trip read_trip(const Table& table) {
  table.only({"do", "date", "vehicle", "share", "distance", "why"});
  Trip trip;
  trip.day = table.day("date");
  if (table.has("vehicle")) trip.shares.push_back({table.text("vehicle"), 1000});
  if (const auto share = table.table("share", "share in " + table.name())) {
    if (table.has("vehicle"))
      table.refuse_whole("trip: found both \"vehicle\" and \"share\", expected one of them", "share");
    for (const auto& [vehicle, weight] : share->value().entries) {
      if (share->quantity(vehicle) <= Quantity{}) share->refuse(vehicle, "a weight above 0");
      trip.shares.push_back({vehicle, share->quantity(vehicle).thousandths()});
    }
  }
  trip.distance = table.distance("distance");
  trip.why = table.text("why");
  return trip;
}

EntryId record(Recording& recording, const Trip& trip) {
  if (trip.shares.empty())
    throw Refusal("trip: found no car, expected a vehicle or a share = { TAG = weight }");
  if (trip.distance <= Distance{})
    throw Refusal(fmt::format("trip: found the distance {}, expected more than 0", trip.distance.shown()));
  expect_words("trip", "the purpose", trip.why);
  Draft draft(recording, "trip", trip.day);
  std::vector<std::int64_t> weights;
  for (const Share& share : trip.shares) weights.push_back(share.weight);
  // spread() knows thousandths of a mile as well as cents: whole units, none lost.
  const std::vector<Money> parts = spread(Money::of_minor(trip.distance.thousandths()), weights);
  EventText shares(recording.currency());
  for (std::size_t i = 0; i < parts.size(); ++i) {
    meet_vehicle(recording, "trip", trip.shares[i].vehicle);
    draft.mention(trip.shares[i].vehicle);
    shares.number(trip.shares[i].vehicle, Quantity::of(trip.shares[i].weight).shown());
    if (!is_zero(parts[i])) draft.detail("trip", {trip.shares[i].vehicle, parts[i].minor()});
  }
  if (trip.shares.size() == 1)
    draft.event.text("vehicle", trip.shares.front().vehicle);
  else
    draft.event.table("share", shares);
  draft.event.number("distance", trip.distance.shown()).text("why", trip.why);
  return draft.record();
}

}  // namespace nonrunner::book

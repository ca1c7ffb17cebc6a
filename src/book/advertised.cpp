#include "book/advertised.h"

#include "book/checks.h"

namespace nonrunner::book {

Advertised read_advertised(const Table& table, const Currency& currency) {
  table.only({"do", "date", "vehicle", "price"});
  return {table.day("date"), table.text("vehicle"), table.money("price", currency)};
}

EntryId record(Recording& recording, const Advertised& advertised) {
  expect_known(recording, "advertised", advertised.vehicle);
  expect_positive(recording, "advertised", "the price", advertised.price);
  Draft draft(recording, "advertised", advertised.day);
  draft.mention(advertised.vehicle);
  draft.event.text("vehicle", advertised.vehicle).money("price", advertised.price);
  draft.detail("advert", {advertised.vehicle, advertised.price.minor()});
  return draft.record();
}

}  // namespace nonrunner::book

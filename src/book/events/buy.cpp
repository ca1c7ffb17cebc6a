#include "book/events/buy.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/events/named.h"
#include "book/ledger/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

void fields(Buy& buy, Fields& f) {
  f.day({"date", "the day of it"}, buy.day);
  f.text({"vehicle", "the car's tag"}, Text::tag, buy.vehicle);
  f.money({"price", "what was paid for it"}, buy.price);
  f.text({"purse", "the purse that paid"}, Text::purse, buy.purse);
  f.rows<NamedAmount>({"fees", "fees paid with it", Need::may}, "{ name, amount, purse } in fees", buy.fees,
                      [](std::size_t) { return "{ name, amount, purse } in fees"; });
  f.text({"job", "a job file, kept as the appraisal in force", Need::may}, Text::file, buy.job_file);
  settled_field(f, buy.settled);
  came_to_field(f, buy.came_to);
  f.text({"from", "who sold it", Need::may}, Text::name, buy.from);
  f.distance({"odometer", "what it stood at", Need::may}, buy.odometer);
}

EntryId record(Recording& recording, const Buy& buy) {
  check_tag("buy", buy.vehicle);
  meet_vehicle(recording, "buy", buy.vehicle);
  const Life life = life_of(recording.book(), buy.vehicle);
  if (life.ended != 0 && recording.held.empty()) refuse_ended("buy", buy.vehicle, life);
  // Where one takes the place of another, that one is taken back already: what stands is another purchase.
  if (life.bought != 0)
    throw Refusal(
        fmt::format("buy: {} was bought on {} (entry {}), and a vehicle is bought once; choose another tag",
                    buy.vehicle, life.bought_said.iso(), life.bought));
  expect_not_negative(recording, "buy", "the price", buy.price);
  for (const NamedAmount& fee : buy.fees)
    expect_not_negative(recording, "buy", "the fee \"" + fee.name + "\"", fee.amount);

  meet_purse(recording, "buy", buy.purse);
  Draft draft(recording, "buy", buy.day);
  draft.mention(buy.vehicle);
  draft.detail("life", {buy.vehicle, std::string("bought")});
  name_facts(draft, "buy", buy.vehicle, {{"seller", buy.from}}, buy.odometer);
  Buy kept = buy;
  kept.job_file.clear();
  kept.settled.reset();
  kept.came_to.clear();
  write(draft, recording.currency(), kept);
  draft.post(account::vehicle_cost, buy.vehicle, buy.price);
  draft.purpose({buy.vehicle, "purchase", "price paid", 0, {}, -buy.price, {}});
  draft.post(account::purse, buy.purse, -buy.price);
  Money fees;
  for (const NamedAmount& fee : buy.fees) {
    const std::string& purse = fee.purse.empty() ? buy.purse : fee.purse;
    meet_purse(recording, "buy", purse);
    draft.post(account::vehicle_cost, buy.vehicle, fee.amount);
    draft.purpose({buy.vehicle, "fee", fee.name, 0, {}, -fee.amount, {}});
    fees += fee.amount;
    draft.post(account::purse, purse, -fee.amount);
  }
  draft.detail("purchase", {buy.vehicle, buy.price.minor(), fees.minor()});
  const EntryId entry = draft.record();
  if (!buy.appraised.job.empty()) keep_appraisal(recording, buy.vehicle, buy.day, entry, buy.appraised);
  return entry;
}

}  // namespace nonrunner::book

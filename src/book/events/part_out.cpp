#include "book/events/part_out.h"

#include <fmt/format.h>

#include <algorithm>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/query.h"
#include "exact/ends.h"

namespace nonrunner::book {

void fields(PartOut& part_out, Fields& f) {
  f.day({"date", "the day from which it goes to pieces"}, part_out.day);
  f.text({"vehicle", "the car"}, Text::tag, part_out.vehicle);
  f.money({"still_brings", "what its parts are still expected to bring"}, part_out.still_brings);
}

EntryId record(Recording& recording, const PartOut& part_out) {
  const Life life = expect_known(recording, "part out", part_out.vehicle);
  if (life.ended != 0) refuse_ended("part out", part_out.vehicle, life);
  if (life.state != State::owned)
    throw Refusal(
        fmt::format("part out: {} is {}, expected a car that was bought", part_out.vehicle, shown(life)));
  if (is_negative(part_out.still_brings))
    throw Refusal(fmt::format("part out: what it still brings is {}, expected 0 or more",
                              part_out.still_brings.plain(recording.currency())));
  if (open_day(recording.book(), part_out.day) < life.bought_day)
    throw Refusal(fmt::format("part out: the day {} lies before the purchase of {} on {}", part_out.day.iso(),
                              part_out.vehicle, life.bought_day.iso()));
  Draft draft(recording, "part out", part_out.day);
  draft.mention(part_out.vehicle);
  write(draft, recording.currency(), part_out);
  draft.detail("part_out", {part_out.vehicle, part_out.still_brings.minor()});
  return draft.record();
}

std::optional<Money> still_brings(const Book& book, const std::string& tag, std::optional<Day> on) {
  const Life life = life_of(book, tag, on);
  if (life.state != State::owned || life.parted == 0) return std::nullopt;
  const Money expected = *first<Money>(book, "SELECT still_brings FROM part_out WHERE entry = :entry",
                                       {{":entry", life.parted}});
  // On one day what was typed after the statement is since it: the one place where typing decides.
  const Money since = *first<Money>(
      book,
      "SELECT -coalesce(sum(p.amount), 0) FROM account a JOIN counted p USING (account) JOIN entry e ON "
      "e.entry = "
      "p.entry LEFT JOIN entry o ON o.entry = e.voids WHERE a.name = :tag AND p.day <= :on AND (p.stands > "
      ":day OR "
      "(p.stands = :day AND coalesce(e.voids, e.entry) > :parted)) AND (a.kind = 'recovered' "
      // What went to another car or to the shelf fetches nothing any more, at the amount moved.
      "OR (a.kind = 'vehicle cost' AND coalesce(o.kind, e.kind) IN ('transfer', 'shelve') AND p.amount * "
      "CASE WHEN e.voids IS NULL THEN 1 ELSE -1 END < 0))",
      {{":tag", tag}, {":on", on}, {":day", life.parted_day}, {":parted", life.parted}});
  return std::max(Money{}, expected - since);
}

}  // namespace nonrunner::book

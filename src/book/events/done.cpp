#include "book/events/done.h"

#include <fmt/format.h>

#include "book/events/fields.h"
#include "book/ledger/checks.h"
#include "book/ledger/marks.h"
#include "exact/ends.h"

namespace nonrunner::book {

namespace {
const std::vector<std::string>& what_is_said() {
  static const std::vector<std::string> all = {says::done, says::not_needed, says::open};
  return all;
}
}  // namespace

void fields(Done& done, Fields& f) {
  f.day({"date", "the day of it"}, done.day);
  f.text({"vehicle", "the car"}, Text::tag, done.vehicle);
  f.other(
      {"lines", "lines of its budget, by their names (else the whole car: it is ready)", Need::may},
      Holds::texts, "a list",
      [&](const Table& table, const Currency&) {
        if (table.has("lines")) done.lines = table.texts("lines");
      },
      [&](EventText& event) { event.texts("lines", done.lines); });
  std::string said = done.says == says::done ? "" : done.says;
  f.text({"says", "what is said of them (else done)", Need::may, &what_is_said()}, Text::choice, said);
  done.says = said.empty() ? says::done : said;
}

EntryId record(Recording& recording, const Done& done) {
  const Life life = expect_known(recording, "done", done.vehicle);
  expect_not_ended(recording.book(), "done", done.vehicle, done.day);
  // A line may be found done or not needed before the car is bought; only a car that is owned is ready.
  if (done.lines.empty()) expect_was_bought(recording, "done", done.vehicle, life);
  if (done.lines.empty() && done.says != says::done)
    throw Refusal(fmt::format("done: no line is named, expected which lines of {} are {}", done.vehicle,
                              done.says == says::open ? "open again" : "not needed"));
  Draft draft(recording, "done", done.day);
  draft.mention(done.vehicle);
  write(draft, recording.currency(), done);
  for (const std::string& line : done.lines) draft.detail("mark", {done.vehicle, Cell(), done.says, line});
  if (done.lines.empty())
    draft.detail("mark", {done.vehicle, Cell(), std::string(says::ready), std::string()});
  return draft.record();
}

}  // namespace nonrunner::book

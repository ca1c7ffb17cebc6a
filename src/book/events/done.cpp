#include "book/events/done.h"

#include <fmt/format.h>

#include "book/ledger/checks.h"
#include "book/ledger/marks.h"
#include "exact/ends.h"

namespace nonrunner::book {

Done read_done(const Table& table) {
  table.only({"do", "date", "vehicle", "lines", "says"});
  Done done{table.day("date"), table.text("vehicle"), {}, table.text_or("says", says::done)};
  if (table.has("lines")) done.lines = table.texts("lines");
  if (done.says != says::done && done.says != says::not_needed && done.says != says::open)
    table.refuse("says", "done, not needed or open");
  return done;
}

EntryId record(Recording& recording, const Done& done) {
  const Life life = expect_known(recording, "done", done.vehicle);
  if (life.ended != 0) throw Refusal("done: " + ended_text(done.vehicle, life));
  if (done.lines.empty() && done.says != says::done)
    throw Refusal(fmt::format("done: no line is named, expected which lines of {} are {}", done.vehicle,
                              done.says == says::open ? "open again" : "not needed"));
  Draft draft(recording, "done", done.day);
  draft.mention(done.vehicle);
  draft.event.text("vehicle", done.vehicle).texts("lines", done.lines);
  if (done.says != says::done) draft.event.text("says", done.says);
  for (const std::string& line : done.lines) draft.detail("mark", {done.vehicle, Cell(), done.says, line});
  if (done.lines.empty())
    draft.detail("mark", {done.vehicle, Cell(), std::string(says::ready), std::string()});
  return draft.record();
}

}  // namespace nonrunner::book

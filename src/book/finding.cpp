#include "book/finding.h"

#include "book/checks.h"
#include "exact/ends.h"

namespace nonrunner::book {

Finding read_finding(const Table& table) {
  table.only({"do", "date", "vehicle", "text"});
  return {table.day("date"), table.text("vehicle"), table.text("text")};
}

EntryId record(Recording& recording, const Finding& finding) {
  if (finding.text.empty()) throw Refusal("finding: the text is empty, expected what was found");
  meet_vehicle(recording, "finding", finding.vehicle);
  Draft draft(recording, "finding", finding.day);
  draft.mention(finding.vehicle);
  draft.event.text("vehicle", finding.vehicle).text("text", finding.text);
  return draft.record();
}

}  // namespace nonrunner::book

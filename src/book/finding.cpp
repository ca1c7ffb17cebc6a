#include "book/finding.h"

#include "book/checks.h"
#include "text/toml.h"

namespace nonrunner::book {

Finding read_finding(const Table& table) {
  table.only({"do", "date", "vehicle", "text", "cause"});
  return {table.day("date"), table.text("vehicle"), table.text("text"), table.text_or("cause", "")};
}

EntryId record(Recording& recording, const Finding& finding) {
  expect_words("finding", "the text", finding.text);
  meet_vehicle(recording, "finding", finding.vehicle);
  Draft draft(recording, "finding", finding.day);
  draft.mention(finding.vehicle);
  draft.event.text("vehicle", finding.vehicle).text("text", finding.text).text("cause", finding.cause);
  return draft.record();
}

std::string found_cause(const Book& book, const std::string& vehicle) {
  std::string cause;
  auto& rows = book.query(
      "SELECT e.event FROM mention m JOIN live_entry e USING (entry) WHERE m.vehicle = ? AND e.kind = 'finding' ORDER BY e.day, e.entry");
  rows.bind(1, vehicle);
  while (rows.executeStep()) {
    const Value value = parse_toml("e = " + rows.getColumn(0).getString(), "entry");
    if (const Value* named = value.find("e")->find("cause")) cause = named->text;
  }
  return cause;
}

}  // namespace nonrunner::book

#include "book/events/finding.h"

#include "book/ledger/checks.h"
#include "exact/ends.h"
#include "text/toml.h"

namespace nonrunner::book {

Finding read_finding(const Table& table) {
  table.only({"do", "date", "vehicle", "text", "cause"});
  return {table.day("date"), table.text("vehicle"), table.text("text"), table.text_or("cause", "")};
}

EntryId record(Recording& recording, const Finding& finding) {
  if (finding.text.empty()) throw Refusal("finding: the text is empty, expected a few words");
  meet_vehicle(recording, "finding", finding.vehicle);
  Draft draft(recording, "finding", finding.day);
  draft.mention(finding.vehicle);
  draft.event.text("vehicle", finding.vehicle).text("text", finding.text).text("cause", finding.cause);
  return draft.record();
}

namespace {

template <class Take>
void each_finding(const Book& book, const std::string& vehicle, std::optional<Day> on, Take take) {
  auto& rows = book.query(
      "SELECT e.day, e.event FROM mention m JOIN entry e USING (entry) WHERE m.vehicle = ?1 AND e.kind = "
      "'finding' AND " +
      stands("?2") + " ORDER BY e.day, e.entry");
  rows.bind(1, vehicle);
  rows.bind(2, on ? on->iso() : "9999-12-31");
  while (rows.executeStep()) {
    const Value value = parse_toml("e = " + rows.getColumn(1).getString(), "entry");
    take(Day::parse(rows.getColumn(0).getString()), *value.find("e"));
  }
}

}  // namespace

std::string found_cause(const Book& book, const std::string& vehicle, std::optional<Day> on) {
  std::string cause;
  each_finding(book, vehicle, on, [&](Day, const Value& event) {
    if (const Value* named = event.find("cause")) cause = named->text;
  });
  return cause;
}

std::vector<std::pair<Day, std::string>> findings(const Book& book, const std::string& vehicle) {
  std::vector<std::pair<Day, std::string>> all;
  each_finding(book, vehicle, {},
               [&](Day day, const Value& event) { all.emplace_back(day, event.find("text")->text); });
  return all;
}

}  // namespace nonrunner::book

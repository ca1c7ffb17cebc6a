#include "answers/paper_choices.h"

#include <algorithm>

#include "answers/budget.h"
#include "answers/line_kind.h"
#include "answers/placing.h"
#include "book/ledger/query.h"
#include "book/questions/board.h"

namespace nonrunner::answers {

std::vector<std::string> suppliers_known(const book::Book& book) {
  std::vector<std::string> all;
  book::each<std::string>(
      book,
      "SELECT supplier FROM paper JOIN live_entry USING (entry) WHERE supplier <> '' GROUP BY supplier "
      "ORDER BY max(entry) DESC",
      {}, [&](const std::string& supplier) { all.push_back(supplier); });
  return all;
}

std::vector<std::string> cars_owned(const book::Book& book, Day today) {
  std::vector<std::string> all;
  for (const book::BoardRow& row : book::board(book, today))
    if (row.state == book::State::owned) all.push_back(row.tag);
  return all;
}

std::vector<OpenLine> open_lines(const book::Book& book, Day today) {
  std::vector<OpenLine> all;
  std::vector<book::EntryId> quick;
  for (const book::Waiting& each : book::tray(book)) quick.push_back(each.entry);
  for (const std::string& tag : cars_owned(book, today)) {
    const auto budget = budget_of(book, tag);
    if (!budget) continue;
    const std::vector<std::string> waiting = stood_under(*budget, quick);
    for (const BudgetLine& line : budget->lines) {
      const bool waits = std::find(waiting.begin(), waiting.end(), line.estimate.what) != waiting.end();
      if ((line.finished() && !waits) || line.number == 0) continue;
      const std::string& source = line.estimate.source;
      const bool of_a_part = source == "new" || source == "salvage" || source == "reman";
      all.push_back({tag, line.estimate.what, line.number, line_kind(line.estimate.kind),
                     of_a_part ? source : "", waits});
    }
  }
  return all;
}

}  // namespace nonrunner::answers

#include "book/questions/board.h"

#include <algorithm>
#include <map>

#include "book/ledger/position.h"

namespace nonrunner::book {

std::vector<BoardRow> board(const Book& book, Day today) {
  std::map<std::string, BoardRow> rows;
  const auto lines_of = [&](const char* sql, auto take) {
    auto& query = book.query(sql);
    while (query.executeStep()) take(query);
  };
  // Every car that an entry that counts is about. Those that have had a turn are known already; only of the
  // few others the entries are looked for.
  const auto positions = all_positions(book);
  for (const auto& [tag, position] : positions)
    if (position.life.bought != 0 || position.life.passed != 0) rows[tag].tag = tag;
  for (const std::string& tag : all_tags(book)) {
    if (rows.contains(tag)) continue;
    auto& about = book.query(
        "SELECT EXISTS (SELECT 1 FROM mention m JOIN live_entry e USING (entry) WHERE m.vehicle = ?1) "
        "OR EXISTS (SELECT 1 FROM appraisal a WHERE a.vehicle = ?1) OR EXISTS (SELECT 1 FROM clock c WHERE "
        "c.vehicle = ?1)");
    about.bind(1, tag);
    about.executeStep();
    if (about.getColumn(0).getInt() != 0) rows[tag].tag = tag;
    about.tryReset();
  }
  lines_of("SELECT vehicle, own FROM worked", [&](auto& q) {
    rows[q.getColumn(0).getString()].own_hours = Hours::of(q.getColumn(1).getInt64());
  });
  std::vector<BoardRow> all;
  for (auto& [tag, row] : rows) {
    if (row.tag.empty()) continue;
    const auto found = positions.find(tag);
    const Position position = found == positions.end() ? Position{} : found->second;
    const Life& life = position.life;
    row.state = life.state;
    row.in_pieces = life.state == State::owned && life.parted != 0;
    if (life.bought) row.days = days_between(life.bought_day, life.ended ? life.ended_day : today);
    row.cost = position.cost - (position.recovered_before - position.beyond_cost);
    row.carried = position.carried;
    row.sales = position.sales;
    if (life.ended) row.cash_profit = position.cash_profit();
    all.push_back(row);
  }
  const auto group = [](State state) { return state == State::owned ? 0 : static_cast<int>(state) + 1; };
  std::stable_sort(all.begin(), all.end(),
                   [&](const BoardRow& a, const BoardRow& b) { return group(a.state) < group(b.state); });
  return all;
}

}  // namespace nonrunner::book

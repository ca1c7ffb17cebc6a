#include "book/questions/board.h"

#include <algorithm>
#include <map>

#include "book/ledger/position.h"
#include "book/ledger/query.h"

namespace nonrunner::book {

std::vector<BoardRow> board(const Book& book, Day today) {
  std::map<std::string, BoardRow> rows;
  // Every car that an entry that counts is about. Those that have had a turn are known already; only of the
  // few others the entries are looked for.
  const auto positions = all_positions(book);
  for (const auto& [tag, position] : positions)
    if (position.life.bought != 0 || position.life.passed != 0) rows[tag].tag = tag;
  for (const std::string& tag : all_tags(book)) {
    if (rows.contains(tag)) continue;
    const bool about = *first<bool>(
        book,
        "SELECT EXISTS (SELECT 1 FROM mention m JOIN live_entry e USING (entry) WHERE m.vehicle = :tag) OR "
        "EXISTS (SELECT 1 FROM appraisal a WHERE a.vehicle = :tag) OR EXISTS (SELECT 1 FROM clock c WHERE "
        "c.vehicle = :tag)",
        {{":tag", tag}});
    if (about) rows[tag].tag = tag;
  }
  each<std::string, Hours>(book, "SELECT vehicle, own FROM worked", {},
                           [&](const std::string& tag, Hours own) { rows[tag].own_hours = own; });
  std::vector<BoardRow> all;
  for (auto& [tag, row] : rows) {
    if (row.tag.empty()) continue;
    const auto found = positions.find(tag);
    const Position position = found == positions.end() ? Position{} : found->second;
    const Life& life = position.life;
    row.state = life.state;
    row.in_pieces = life.state == State::owned && life.parted != 0;
    if (life.bought) row.days = days_between(life.bought_said, life.ended ? life.ended_said : today);
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

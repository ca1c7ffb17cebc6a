#include "book/questions/board.h"

#include <algorithm>
#include <map>

namespace nonrunner::book {

std::vector<BoardRow> board(const Book& book, Day today) {
  std::map<std::string, BoardRow> rows;
  const auto lines_of = [&](const char* sql, auto take) {
    auto& query = book.query(sql);
    while (query.executeStep()) take(query);
  };
  // Every car that an entry that counts is about. Those that have had a turn are known already; only of the
  // few others the entries are looked for.
  const auto lives = all_lives(book);
  for (const auto& [tag, life] : lives) rows[tag].tag = tag;
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
  std::map<std::string, Money> profit, late, looking;
  lines_of(
      "SELECT a.kind, a.name, b.amount FROM account a JOIN balance b USING (account) WHERE a.kind IN "
      "('vehicle cost', 'recovered', "
      "'sales', 'cost of sale', 'selling cost', 'late cost', 'recovered income', 'deposit kept', 'written "
      "off', 'looking')",
      [&](auto& q) {
        const std::string kind = q.getColumn(0).getString(), tag = q.getColumn(1).getString();
        const Money amount = Money::of_minor(q.getColumn(2).getInt64());
        BoardRow& row = rows[tag];
        row.tag = tag;
        if (kind == account::vehicle_cost || kind == account::recovered) row.carried += amount;
        if (kind == account::vehicle_cost || kind == account::recovered || kind == account::cost_of_sale ||
            kind == account::written_off || kind == account::looking)
          row.cost += amount;
        if (kind == account::late_cost) late[tag] += amount;
        if (kind == account::looking) looking[tag] += amount;
        if (kind == account::sales) row.sales -= amount;
        if (kind != account::vehicle_cost && kind != account::recovered && kind != account::looking)
          profit[tag] -= amount;
      });
  lines_of("SELECT vehicle, own FROM worked", [&](auto& q) {
    rows[q.getColumn(0).getString()].own_hours = Hours::of(q.getColumn(1).getInt64());
  });
  std::vector<BoardRow> all;
  for (auto& [tag, row] : rows) {
    if (row.tag.empty()) continue;
    const auto found = lives.find(tag);
    const Life life = found == lives.end() ? Life{} : found->second;
    row.state = life.state;
    row.in_pieces = life.state == State::owned && life.parted != 0;
    row.sold = life.state == State::sold;
    if (life.bought) row.days = days_between(life.bought_day, life.ended ? life.ended_day : today);
    if (life.ended) row.cash_profit = profit[tag];
    if (!life.ended) {  // spent after a sale that fell through: cost of the car like any other
      row.cost += late[tag];
      row.carried += late[tag];
    }
    if (life.state == State::considered) row.carried += looking[tag];
    all.push_back(row);
  }
  const auto group = [](State state) { return state == State::owned ? 0 : static_cast<int>(state) + 1; };
  std::stable_sort(all.begin(), all.end(),
                   [&](const BoardRow& a, const BoardRow& b) { return group(a.state) < group(b.state); });
  return all;
}

}  // namespace nonrunner::book

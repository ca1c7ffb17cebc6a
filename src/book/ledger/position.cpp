#include "book/ledger/position.h"

#include <algorithm>

namespace nonrunner::book {

namespace {

// A sum of one account, up to the end of the car's life or after it.
void take(Position& position, const std::string& kind, bool after, Money sum) {
  if (kind == account::vehicle_cost) (after ? position.late_cost : position.cost) += sum;
  if (kind == account::recovered) (after ? position.recovered_after : position.recovered_before) -= sum;
  if (kind == account::sales) position.sales -= sum;
  if (kind == account::selling_cost) position.selling_costs += sum;
  if (kind == account::deposit_kept) position.deposit_kept -= sum;
  if (kind == account::buyer_deposit) position.deposit_held -= sum;
}

void work_out(Position& position) {
  const Money net = position.cost - position.recovered_before;
  position.beyond_cost = std::max(-net, Money{});
  const Money left = std::max(net, Money{});
  if (position.life.ended != 0)
    position.cost_of_sale = left;
  else if (position.life.state == State::passed)
    position.looking = left;
  else
    position.carried = left;
}

const std::string of_a_car =
    "('vehicle cost', 'recovered', 'sales', 'selling cost', 'deposit kept', 'buyer deposit')";
const std::string last_of_days = "9999-12-31";
std::string until(std::optional<Day> on) { return on ? on->iso() : last_of_days; }

}  // namespace

Position position_of(const Book& book, const std::string& tag, std::optional<Day> on) {
  Position position;
  position.life = life_of(book, tag, on);
  static const std::string sql =
      "SELECT a.kind, d.stands > ?3, sum(d.amount) FROM account a JOIN account_day d USING (account) WHERE "
      "a.name = ?1 AND a.kind IN " +
      of_a_car + " AND d.day <= ?2 GROUP BY 1, 2";
  auto& rows = book.query(sql);
  rows.bind(1, tag);
  rows.bind(2, until(on));
  rows.bind(3, position.life.ended == 0 ? last_of_days : position.life.ended_day.iso());
  while (rows.executeStep())
    take(position, rows.getColumn(0).getString(), rows.getColumn(1).getInt() != 0,
         Money::of_minor(rows.getColumn(2).getInt64()));
  work_out(position);
  return position;
}

std::map<std::string, Position> all_positions(const Book& book, std::optional<Day> on) {
  std::map<std::string, Position> all;
  for (auto& [tag, life] : all_lives(book, on)) all[tag].life = life;
  static const std::string sql =
      "SELECT a.kind, a.name, d.stands, sum(d.amount) FROM account a JOIN account_day d USING (account) "
      "WHERE a.kind IN " +
      of_a_car + " AND d.day <= ?1 GROUP BY d.account, d.stands";
  auto& rows = book.query(sql);
  rows.bind(1, until(on));
  while (rows.executeStep()) {
    Position& position = all[rows.getColumn(1).getString()];
    const bool after =
        position.life.ended != 0 && rows.getColumn(2).getString() > position.life.ended_day.iso();
    take(position, rows.getColumn(0).getString(), after, Money::of_minor(rows.getColumn(3).getInt64()));
  }
  for (auto& [tag, position] : all) work_out(position);
  return all;
}

}  // namespace nonrunner::book

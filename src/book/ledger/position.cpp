#include "book/ledger/position.h"

#include <algorithm>

#include "book/ledger/query.h"

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

}  // namespace

Position position_of(const Book& book, const std::string& tag, std::optional<Day> on) {
  Position position;
  position.life = life_of(book, tag, on);
  static const std::string sql =
      "SELECT a.kind, d.stands > :ended, sum(d.amount) FROM account a JOIN account_day d USING (account) "
      "WHERE "
      "a.name = :tag AND a.kind IN " +
      of_a_car + " AND d.day <= :on GROUP BY 1, 2";
  const std::optional<Day> ended =
      position.life.ended == 0 ? std::nullopt : std::optional(position.life.ended_stands);
  each<std::string, bool, Money>(
      book, sql, {{":tag", tag}, {":on", on}, {":ended", ended}},
      [&](const std::string& kind, bool after, Money sum) { take(position, kind, after, sum); });
  work_out(position);
  return position;
}

namespace {

// The day under which each car's life ended, of those whose life has by the day :on.
const std::string ended_by_then =
    "WITH gone AS (SELECT l.vehicle, max(coalesce(s.day, e.day)) AS day FROM life l CROSS JOIN entry e "
    "USING "
    "(entry) LEFT JOIN ended s ON s.entry = e.entry WHERE l.turn IN ('sold', 'finished') AND " +
    counts_on(":on") + " GROUP BY l.vehicle) ";

// On a past day: from the sums by days.
void add_until(std::map<std::string, Position>& all, const Book& book, Day on) {
  static const std::string sql =
      ended_by_then +
      "SELECT a.kind, a.name, n.day IS NOT NULL AND d.stands > n.day AS after, sum(d.amount) FROM account a "
      "LEFT JOIN gone n ON n.vehicle = a.name CROSS JOIN account_day d ON d.account = a.account WHERE "
      "a.kind IN " +
      of_a_car + " AND d.day <= :on GROUP BY a.account, after";
  each<std::string, std::string, bool, Money>(
      book, sql, {{":on", on}}, [&](const std::string& kind, const std::string& tag, bool after, Money sum) {
        take(all[tag], kind, after, sum);
      });
}

Money stands_after(const Book& book, std::int64_t account, Day day) {
  return *first<Money>(
      book, "SELECT coalesce(sum(amount), 0) FROM account_day WHERE account = :account AND stands > :day",
      {{":account", account}, {":day", day}});
}

// Now: the sums over all days, less, of cars that have ended, what stands after their end. That is looked for only where
// something does: the days of a thousand accounts lie far apart in the file.
void add_all(std::map<std::string, Position>& all, const Book& book) {
  static const std::string sums =
      "SELECT a.kind, a.name, s.account, s.amount, s.last FROM account a JOIN account_sum s USING (account) "
      "WHERE a.kind IN " +
      of_a_car;
  each<std::string, std::string, std::int64_t, Money, std::string>(
      book, sums, {},
      [&](const std::string& kind, const std::string& tag, std::int64_t account, Money sum,
          const std::string& last) {
        Position& position = all[tag];
        const Life& life = position.life;
        const bool parted = kind == account::vehicle_cost || kind == account::recovered;
        const Money late = parted && life.ended != 0 && last > life.ended_stands.iso()
                               ? stands_after(book, account, life.ended_stands)
                               : Money{};
        take(position, kind, false, sum - late);
        take(position, kind, true, late);
      });
}

}  // namespace

std::map<std::string, Position> all_positions(const Book& book, std::optional<Day> on) {
  std::map<std::string, Position> all;
  for (auto& [tag, life] : all_lives(book, on)) all[tag].life = life;
  if (on)
    add_until(all, book, *on);
  else
    add_all(all, book);
  for (auto& [tag, position] : all) work_out(position);
  return all;
}

}  // namespace nonrunner::book

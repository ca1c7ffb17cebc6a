#include "book/questions/period.h"

#include <algorithm>

#include "book/ledger/position.h"
#include "book/questions/journal.h"

namespace nonrunner::book {

namespace {
void bind_days(SQLite::Statement& query, int at, Day from, Day to) {
  query.bind(at, from.iso());
  query.bind(at + 1, to.iso());
}
// Those entries `e` of the days ?1 to ?2, see the header. The signs: see schema/0008-live-entry.sql.
const std::string moves_here =
    "(+e.day >= ?1 AND +e.day <= ?2 AND "
    "CASE WHEN e.voids IS NULL "
    "THEN NOT EXISTS (SELECT 1 FROM entry v WHERE v.voids = e.entry AND v.day <= ?2) "
    "ELSE EXISTS (SELECT 1 FROM entry o WHERE o.entry = e.voids AND o.day < ?1) END)";
// Those without reversals: what was said on a day of the period and still stood at its end.
const std::string stood_here = "(+e.day >= ?1 AND " + counts_on("?2") + ")";

}  // namespace

namespace {

// What a car's cost and its recoveries are on a day, by the accounts that a report shows them under: debits
// positive. They add up to what its two accounts hold.
struct Shown {
  Money vehicle_cost, recovered, cost_of_sale, written_off, late_cost, looking, income;
  Money closed_cost, closed_recovered;  // what a sale or a write-off took out of the first two
};
Shown shown_of(const Position& position) {
  Shown shown;
  const Money off = position.recovered_before - position.beyond_cost;
  if (position.life.ended != 0) {
    (position.life.state == State::sold ? shown.cost_of_sale : shown.written_off) = position.cost_of_sale;
    shown.closed_cost = position.cost;
    shown.closed_recovered = off;
  } else if (position.life.state == State::passed) {
    shown.looking = position.looking;
  } else {
    shown.vehicle_cost = position.cost;
    shown.recovered = -off;
  }
  shown.late_cost = position.late_cost;
  shown.income = -position.income();
  return shown;
}

void add_cars(std::vector<AccountMovement>& all, const Book& book, Day from, Day to) {
  const auto before = all_positions(book, from.plus(-1)), after = all_positions(book, to);
  for (const auto& each : after) {
    const std::string& tag = each.first;
    const auto found = before.find(tag);
    const Shown then = found == before.end() ? Shown{} : shown_of(found->second), now = shown_of(each.second);
    const auto add = [&](const char* kind, Money Shown::*field, Money closing) {
      const Money sum = now.*field - then.*field;
      if (is_zero(sum) && is_zero(closing)) return;
      all.push_back({kind, tag, sum, std::max(sum, Money{}), std::max(-sum, Money{}), Quantity{}, closing});
    };
    add(account::vehicle_cost, &Shown::vehicle_cost, then.closed_cost - now.closed_cost);
    add(account::recovered, &Shown::recovered, now.closed_recovered - then.closed_recovered);
    add(account::cost_of_sale, &Shown::cost_of_sale, {});
    add(account::written_off, &Shown::written_off, {});
    add(account::late_cost, &Shown::late_cost, {});
    add(account::looking, &Shown::looking, {});
    add(account::recovered_income, &Shown::income, {});
  }
}

}  // namespace

std::vector<AccountMovement> movements(const Book& book, Day from, Day to) {
  std::vector<AccountMovement> all;
  auto& rows = book.query(
      "SELECT a.kind, a.name, sum(p.amount), sum(max(p.amount, 0)), -sum(min(p.amount, 0)), "
      "coalesce(sum(p.quantity), 0) FROM posting p JOIN entry e USING (entry) JOIN account a USING (account) "
      "WHERE a.kind NOT IN ('vehicle cost', 'recovered', 'late cost', 'looking', 'recovered income', 'cost "
      "of "
      "sale', 'written off') AND " +
      moves_here + " GROUP BY a.account ORDER BY a.account");
  bind_days(rows, 1, from, to);
  while (rows.executeStep()) {
    const auto money = [&](int column) { return Money::of_minor(rows.getColumn(column).getInt64()); };
    all.push_back({rows.getColumn(0).getString(),
                   rows.getColumn(1).getString(),
                   money(2),
                   money(3),
                   money(4),
                   Quantity::of(rows.getColumn(5).getInt64()),
                   {}});
  }
  add_cars(all, book, from, to);
  return all;
}

std::vector<PeriodLine> posted_to(const Book& book, const std::string& account_kind, Day from, Day to) {
  std::vector<PeriodLine> all;
  auto& rows = book.query(
      "SELECT e.day, e.entry, e.event, a.name, p.amount FROM account a JOIN posting p USING (account) JOIN "
      "entry e USING (entry) WHERE a.kind = ?3 AND p.amount <> 0 AND " +
      moves_here + " ORDER BY e.day, e.entry, p.seq");
  bind_days(rows, 1, from, to);
  rows.bind(3, account_kind);
  while (rows.executeStep())
    all.push_back({Day::parse(rows.getColumn(0).getString()), rows.getColumn(1).getInt64(),
                   words_for(rows.getColumn(2).getString()), rows.getColumn(3).getString(),
                   Money::of_minor(rows.getColumn(4).getInt64())});
  return all;
}

std::vector<PeriodLine> without_paper(const Book& book, Day from, Day to) {
  std::vector<PeriodLine> all;
  auto& rows = book.query(
      "SELECT e.day, e.entry, e.event, (SELECT group_concat(vehicle, ' ') FROM mention m WHERE m.entry = "
      "e.entry), p.total "
      "FROM paper p JOIN entry e USING (entry) WHERE (p.on_paper = 0 OR p.itemised = 0) AND " +
      stood_here + " ORDER BY e.day, e.entry");
  bind_days(rows, 1, from, to);
  while (rows.executeStep())
    all.push_back({Day::parse(rows.getColumn(0).getString()), rows.getColumn(1).getInt64(),
                   words_for(rows.getColumn(2).getString()),
                   rows.getColumn(3).isNull() ? "" : rows.getColumn(3).getString(),
                   Money::of_minor(rows.getColumn(4).getInt64())});
  return all;
}

std::vector<TripLine> trips(const Book& book, Day from, Day to) {
  std::vector<TripLine> all;
  auto& rows = book.query(
      "SELECT e.day, coalesce((SELECT r.why FROM errand r WHERE r.entry = e.entry), ''), "
      "group_concat(t.vehicle, ' '), sum(t.distance) FROM trip t JOIN entry e USING (entry) WHERE " +
      stood_here + " GROUP BY e.entry ORDER BY e.day, e.entry");
  bind_days(rows, 1, from, to);
  while (rows.executeStep()) {
    all.push_back({Day::parse(rows.getColumn(0).getString()), rows.getColumn(2).getString(),
                   rows.getColumn(1).getString(), Distance::of(rows.getColumn(3).getInt64())});
  }
  return all;
}

Money sales_returned(const Book& book, Day from, Day to) {
  auto& rows = book.query(
      "SELECT coalesce(sum(-p.amount), 0) FROM entry v JOIN entry e ON e.entry = v.voids JOIN posting p ON "
      "p.entry = e.entry JOIN account a USING (account) WHERE a.kind = 'sales' AND v.day > e.day AND v.day "
      ">= ?1 "
      "AND v.day <= ?2");
  bind_days(rows, 1, from, to);
  rows.executeStep();
  const Money returned = Money::of_minor(rows.getColumn(0).getInt64());
  rows.tryReset();
  return returned;
}

std::vector<SaleLine> sales(const Book& book, Day from, Day to) {
  std::vector<SaleLine> all;
  auto& rows = book.query(
      "SELECT e.day, l.vehicle, coalesce((SELECT -sum(p.amount) FROM posting p JOIN account a USING "
      "(account) WHERE p.entry = e.entry AND "
      "a.kind = 'sales'), 0) FROM life l JOIN entry e USING (entry) WHERE l.turn = 'sold' AND " +
      stood_here + " ORDER BY e.day, e.entry");
  bind_days(rows, 1, from, to);
  while (rows.executeStep())
    all.push_back({Day::parse(rows.getColumn(0).getString()), rows.getColumn(1).getString(),
                   Money::of_minor(rows.getColumn(2).getInt64())});
  return all;
}

Hours own_hours(const Book& book, const std::string& vehicle, Day from, Day to) {
  auto& sum = book.query(
      "SELECT coalesce(sum(CASE WHEN e.day < ?1 THEN -l.own ELSE l.own END), 0) FROM labour l JOIN entry e "
      "USING (entry) WHERE l.vehicle = ?3 AND (" +
      stood_here +
      // Taken back within the period, of a day before it.
      " OR (e.day < ?1 AND EXISTS (SELECT 1 FROM entry v WHERE v.voids = e.entry AND v.day >= ?1 AND v.day "
      "<= ?2)))");
  bind_days(sum, 1, from, to);
  sum.bind(3, vehicle);
  sum.executeStep();
  const Hours hours = Hours::of(sum.getColumn(0).getInt64());
  sum.tryReset();
  return hours;
}

}  // namespace nonrunner::book

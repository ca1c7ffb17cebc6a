#include "book/period.h"

#include "book/journal.h"
#include "text/toml.h"

namespace nonrunner::book {

namespace {
void bind_days(SQLite::Statement& query, int at, Day from, Day to) {
  query.bind(at, from.iso());
  query.bind(at + 1, to.iso());
}
}  // namespace

std::vector<AccountMovement> movements(const Book& book, Day from, Day to) {
  std::vector<AccountMovement> all;
  auto& rows = book.query(
      "SELECT a.kind, a.name, sum(p.amount), sum(max(p.amount, 0)), -sum(min(p.amount, 0)), "
      "coalesce(sum(p.quantity), 0), "
      "sum(CASE WHEN e.kind IN ('sell', 'write off') THEN p.amount ELSE 0 END) "
      "FROM posting p JOIN live_entry e USING (entry) JOIN account a USING (account) WHERE e.day >= ? AND "
      "e.day <= ? "
      "GROUP BY a.account ORDER BY a.account");
  bind_days(rows, 1, from, to);
  while (rows.executeStep()) {
    const auto money = [&](int column) { return Money::of_minor(rows.getColumn(column).getInt64()); };
    all.push_back({rows.getColumn(0).getString(), rows.getColumn(1).getString(), money(2), money(3), money(4),
                   Quantity::of(rows.getColumn(5).getInt64()), money(6)});
  }
  return all;
}

std::vector<PeriodLine> posted_to(const Book& book, const std::string& account_kind, Day from, Day to) {
  std::vector<PeriodLine> all;
  auto& rows = book.query(
      "SELECT e.day, e.entry, e.event, a.name, p.amount FROM account a JOIN posting p USING (account) JOIN "
      "live_entry e USING (entry) "
      "WHERE a.kind = ? AND e.day >= ? AND e.day <= ? AND p.amount <> 0 ORDER BY e.day, e.entry, p.seq");
  rows.bind(1, account_kind);
  bind_days(rows, 2, from, to);
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
      "FROM paper p JOIN live_entry e USING (entry) WHERE (p.on_paper = 0 OR p.itemised = 0) AND e.day >= ? "
      "AND e.day <= ? ORDER BY e.day, e.entry");
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
      "SELECT e.day, e.event, group_concat(t.vehicle, ' '), sum(t.distance) FROM trip t JOIN live_entry e "
      "USING (entry) "
      "WHERE e.day >= ? AND e.day <= ? GROUP BY e.entry ORDER BY e.day, e.entry");
  bind_days(rows, 1, from, to);
  while (rows.executeStep()) {
    const Value value = parse_toml("e = " + rows.getColumn(1).getString(), "entry");
    const Value* why = value.find("e")->find("why");
    all.push_back({Day::parse(rows.getColumn(0).getString()), rows.getColumn(2).getString(),
                   why ? why->text : "", Distance::of(rows.getColumn(3).getInt64())});
  }
  return all;
}

std::vector<SaleLine> sales(const Book& book, Day from, Day to) {
  std::vector<SaleLine> all;
  auto& rows = book.query(
      "SELECT e.day, l.vehicle, coalesce((SELECT -sum(p.amount) FROM posting p JOIN account a USING "
      "(account) WHERE p.entry = e.entry AND "
      "a.kind = 'sales'), 0) FROM life l JOIN live_entry e USING (entry) WHERE l.turn = 'sold' AND e.day >= "
      "? AND e.day <= ? ORDER BY e.day, e.entry");
  bind_days(rows, 1, from, to);
  while (rows.executeStep())
    all.push_back({Day::parse(rows.getColumn(0).getString()), rows.getColumn(1).getString(),
                   Money::of_minor(rows.getColumn(2).getInt64())});
  return all;
}

Hours own_hours(const Book& book, const std::string& vehicle, Day from, Day to) {
  auto& sum = book.query(
      "SELECT coalesce(sum(l.own), 0) FROM labour l JOIN live_entry e USING (entry) WHERE l.vehicle = ? AND "
      "e.day >= ? AND e.day <= ?");
  sum.bind(1, vehicle);
  bind_days(sum, 2, from, to);
  sum.executeStep();
  const Hours hours = Hours::of(sum.getColumn(0).getInt64());
  sum.tryReset();
  return hours;
}

}  // namespace nonrunner::book

#include "book/ledger/moved.h"

#include <algorithm>

#include "book/ledger/query.h"

namespace nonrunner::book {

bool is_of_several(const Line& line) { return line.quantity > Quantity::of(1000); }

namespace {
// What of the line was put into a car, or left one to which it had been moved: entry, vehicle, amount.
const std::string moves_of_line =
    "(SELECT c.entry, c.vehicle, c.amount FROM charged c WHERE c.line = :line UNION ALL "
    "SELECT c.entry, a.name, p.amount FROM charged c JOIN entry t USING (entry) JOIN posting p USING (entry) "
    "JOIN account a USING (account) WHERE c.line = :line AND t.kind = 'transfer' AND a.kind = 'vehicle cost' "
    "AND p.amount < 0 AND a.name NOT IN (SELECT s.vehicle FROM share s WHERE s.line = c.line))";
}  // namespace

std::map<std::string, Money> charged_to(const Book& book, const Line& line, Day day) {
  std::map<std::string, std::map<Day, Money>> moved;
  each<std::string, Money, Day, std::optional<Day>>(
      book,
      "SELECT m.vehicle, m.amount, e.day, v.day FROM " + moves_of_line +
          " m JOIN entry e USING (entry) LEFT JOIN entry v ON v.voids = e.entry",
      {{":line", line.number}},
      [&](const std::string& vehicle, Money amount, Day from, std::optional<Day> until) {
        moved[vehicle][std::max(from, day)] += amount;
        if (until) moved[vehicle][std::max(*until, day)] -= amount;
      });
  std::map<std::string, Money> cars;
  for (const auto& [vehicle, days] : moved) {
    if (days.begin()->first != day) continue;  // none of it is there yet
    Money stands, least = days.begin()->second;
    for (const auto& each : days) least = std::min(least, stands += each.second);
    if (least > Money{}) cars[vehicle] = least;
  }
  return cars;
}

Money moved_into(const Book& book, const Line& line, const std::string& vehicle, Day on) {
  return *first<Money>(
      book,
      "SELECT coalesce(sum(c.amount), 0) FROM charged c JOIN entry e USING (entry) WHERE c.line = "
      ":line AND c.vehicle = :vehicle AND c.amount > 0 AND " +
          counts_on(":on"),
      {{":line", line.number}, {":vehicle", vehicle}, {":on", on}});
}

Money stands_at_first(const Book& book, const Line& line, std::optional<Day> on) {
  static const std::string own_cars =
      " IN (SELECT s.vehicle FROM share s WHERE s.line = :line) AND " + counts_on(":on");
  const Money put_in = *first<Money>(
      book,
      "SELECT coalesce(sum(-u.amount), 0) FROM purpose u JOIN entry e USING (entry) WHERE u.line = :line AND "
      "u.kind IN ('fee', 'part', 'consumable', 'sublet', 'other cost') AND u.vehicle" +
          own_cars,
      {{":line", line.number}, {":on", on}});
  const Money moved = *first<Money>(
      book,
      "SELECT coalesce(sum(p.amount), 0) FROM charged c JOIN entry e USING (entry) JOIN posting p USING "
      "(entry) JOIN account a USING (account) WHERE c.line = :line AND e.kind = 'transfer' AND a.kind = "
      "'vehicle cost' AND a.name" +
          own_cars,
      {{":line", line.number}, {":on", on}});
  return std::max(put_in + moved, Money{});
}

std::optional<std::string> holder_of(const Book& book, std::int64_t line, std::optional<Day> on) {
  return first<std::string>(
      book,
      "SELECT c.vehicle FROM charged c JOIN entry e USING (entry) WHERE c.line = :line AND "
      "EXISTS (SELECT 1 FROM share s WHERE s.line = c.line) AND " +
          counts_on(":on") + " ORDER BY e.day DESC, e.entry DESC LIMIT 1",
      {{":line", line}, {":on", on}});
}

std::vector<std::string> cars_with(const Book& book, const Line& line, std::optional<Day> on) {
  const auto holder = holder_of(book, line.number, on);
  if (holder && !is_of_several(line)) return {*holder};
  std::vector<std::string> cars;
  if (!holder || stands_at_first(book, line, on) > Money{})
    for (const Share& share : line.shares) cars.push_back(share.vehicle);
  if (!holder) return cars;
  each<std::string>(book,
                    "SELECT m.vehicle FROM " + moves_of_line + " m JOIN entry e USING (entry) WHERE " +
                        counts_on(":on") + " GROUP BY m.vehicle HAVING sum(m.amount) > 0 ORDER BY m.vehicle",
                    {{":line", line.number}, {":on", on}}, [&](const std::string& car) {
                      if (std::find(cars.begin(), cars.end(), car) == cars.end()) cars.push_back(car);
                    });
  // A piece may leave for more than it came for: where one went last it is, whatever the amounts say.
  if (std::find(cars.begin(), cars.end(), *holder) == cars.end()) cars.push_back(*holder);
  return cars;
}

}  // namespace nonrunner::book

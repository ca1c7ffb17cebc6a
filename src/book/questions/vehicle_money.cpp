#include "book/questions/vehicle_money.h"

#include <array>
#include <utility>

namespace nonrunner::book {

namespace {

constexpr std::array<std::pair<const char*, MoneyKind>, 13> kinds{{
    {"purchase", MoneyKind::purchase},
    {"fee", MoneyKind::fee},
    {"part", MoneyKind::part},
    {"consumable", MoneyKind::consumable},
    {"sublet", MoneyKind::sublet},
    {"paid hours", MoneyKind::paid_hours},
    {"other cost", MoneyKind::other_cost},
    {"recovered", MoneyKind::recovered},
    {"selling cost", MoneyKind::selling_cost},
    {"commission", MoneyKind::commission},
    {"deposit kept", MoneyKind::deposit_kept},
    {"sale", MoneyKind::sale},
    {"due back", MoneyKind::due_back},
}};

MoneyKind kind_of(const std::string& word) {
  for (const auto& [name, kind] : kinds)
    if (word == name) return kind;
  throw std::logic_error("no kind of money " + word);
}

std::string until(std::optional<Day> on) { return on ? on->iso() : "9999-12-31"; }

}  // namespace

std::vector<MoneyLine> money_of(const Book& book, const std::string& tag, std::optional<Day> on) {
  const Life life = life_of(book, tag, on);
  std::vector<MoneyLine> lines;
  // The paper is that of the entry, or the one on which the line was bought that it is about.
  auto& rows = book.query(
      "SELECT e.day, e.entry, coalesce(u.stands, e.day), u.kind, u.what, u.quantity, u.amount, "
      "coalesce(l.id, ''), coalesce(l.source, ''), coalesce(p.supplier, b.supplier, ''), "
      "coalesce(p.number, b.number, ''), p.entry IS NOT NULL AND (p.itemised = 0 OR p.on_paper = 0), "
      "coalesce(u.heading, ''), coalesce(u.line, 0) FROM purpose u CROSS JOIN entry e USING (entry) LEFT "
      "JOIN line l ON l.line = "
      "u.line "
      "LEFT JOIN paper p ON p.entry = e.entry LEFT JOIN paper b ON b.entry = l.entry WHERE u.vehicle = ?1 "
      "AND " +
      counts_on("?2") + " ORDER BY e.day, e.entry, u.rowid");
  rows.bind(1, tag);
  rows.bind(2, until(on));
  while (rows.executeStep()) {
    MoneyLine line;
    line.day = Day::parse(rows.getColumn(0).getString());
    line.entry = rows.getColumn(1).getInt64();
    line.after_sale = life.ended != 0 && rows.getColumn(2).getString() > life.ended_day.iso();
    line.kind = kind_of(rows.getColumn(3).getString());
    line.what = rows.getColumn(4).getString();
    if (!rows.getColumn(5).isNull()) line.quantity = Quantity::of(rows.getColumn(5).getInt64());
    line.amount = Money::of_minor(rows.getColumn(6).getInt64());
    line.line = rows.getColumn(7).getString();
    line.source = rows.getColumn(8).getString();
    const std::string supplier = rows.getColumn(9).getString(), number = rows.getColumn(10).getString();
    line.paper = supplier + (supplier.empty() || number.empty() ? "" : " ") + number;
    line.without_paper = rows.getColumn(11).getInt() != 0;
    line.quick = line.without_paper;
    line.heading = rows.getColumn(12).getString();
    line.line_number = rows.getColumn(13).getInt64();
    if (line.kind == MoneyKind::paid_hours) line.operation = line.what;
    lines.push_back(std::move(line));
  }
  return lines;
}

std::vector<WorkLine> work_of(const Book& book, const std::string& tag, std::optional<Day> on) {
  const Life life = life_of(book, tag, on);
  std::vector<WorkLine> all;
  auto& rows = book.query(
      "SELECT e.day, l.operation, l.own, l.paid, e.entry FROM labour l JOIN entry e USING (entry) WHERE "
      "l.vehicle = ?1 AND " +
      counts_on("?2") + " ORDER BY e.day, e.entry");
  rows.bind(1, tag);
  rows.bind(2, until(on));
  while (rows.executeStep())
    all.push_back({Day::parse(rows.getColumn(0).getString()), rows.getColumn(4).getInt64(),
                   rows.getColumn(1).getString(), Hours::of(rows.getColumn(2).getInt64()),
                   Hours::of(rows.getColumn(3).getInt64()),
                   life.ended != 0 && rows.getColumn(0).getString() > life.ended_day.iso()});
  return all;
}

std::vector<std::pair<Day, Money>> adverts_of(const Book& book, const std::string& tag) {
  std::vector<std::pair<Day, Money>> all;
  auto& rows = book.query(
      "SELECT e.day, a.price FROM advert a JOIN live_entry e USING (entry) WHERE a.vehicle = ? ORDER BY "
      "e.day, e.entry");
  rows.bind(1, tag);
  while (rows.executeStep())
    all.emplace_back(Day::parse(rows.getColumn(0).getString()),
                     Money::of_minor(rows.getColumn(1).getInt64()));
  return all;
}

}  // namespace nonrunner::book

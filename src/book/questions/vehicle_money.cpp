#include "book/questions/vehicle_money.h"

#include "book/ledger/purposes.h"
#include "book/ledger/query.h"

namespace nonrunner::book {

std::vector<MoneyLine> money_of(const Book& book, const std::string& tag, std::optional<Day> on) {
  const Life life = life_of(book, tag, on);
  std::vector<MoneyLine> lines;
  // The paper is that of the entry, or the one on which the line was bought that it is about.
  rows(book,
       // Of pieces that cars share each has its part, as it has of their price.
       "SELECT e.day, e.entry, coalesce(u.stands, e.day), u.kind, u.what, coalesce((SELECT CAST(round(1.0 * "
       "u.quantity * s.weight / (SELECT sum(w.weight) FROM share w WHERE w.line = s.line)) AS INTEGER) FROM "
       "share s WHERE s.line = u.line AND s.vehicle = u.vehicle), u.quantity), u.amount, "
       "coalesce(l.id, ''), "
       "coalesce(l.source, ''), coalesce(p.supplier, b.supplier, ''), coalesce(p.number, b.number, ''), "
       "p.entry IS NOT "
       "NULL AND (p.itemised = 0 OR p.on_paper = 0), coalesce(u.line, 0) FROM "
       "purpose u CROSS "
       "JOIN entry e USING (entry) LEFT JOIN line l ON l.line = u.line LEFT JOIN paper p ON p.entry = "
       "e.entry LEFT JOIN "
       "paper b ON b.entry = l.entry WHERE u.vehicle = :tag AND " +
           counts_on(":on") + " ORDER BY e.day, e.entry, u.rowid",
       {{":tag", tag}, {":on", on}}, [&](const Row& row) {
         MoneyLine& line = lines.emplace_back();
         Day stands;
         std::string kind, supplier, number;
         row.into(line.day, line.entry, stands, kind, line.what, line.quantity, line.amount, line.line,
                  line.source, supplier, number, line.without_paper, line.line_number);
         line.after_sale = life.ended != 0 && stands > life.ended_stands;
         line.kind = kind_of_purpose(kind);
         line.paper = supplier + (supplier.empty() || number.empty() ? "" : " ") + number;
         line.quick = line.without_paper;
         if (line.kind == MoneyKind::paid_hours) line.operation = line.what;
       });
  return lines;
}

std::vector<figures::Work> work_of(const Book& book, const std::string& tag, std::optional<Day> on) {
  const Life life = life_of(book, tag, on);
  std::vector<figures::Work> all;
  // What put right hours of a closed period stands under their days as far as they went, the rest under its own.
  each<Day, std::string, Hours, Hours, EntryId, Day>(
      book,
      "SELECT e.day, l.operation, s.own, s.paid, e.entry, s.day AS stands FROM labour l JOIN entry e USING "
      "(entry) JOIN stood s USING (entry) WHERE l.vehicle = :tag AND " +
          counts_on(":on") +
          " UNION ALL SELECT e.day, l.operation, l.own - coalesce((SELECT sum(s.own) FROM stood s WHERE "
          "s.entry = e.entry), 0), l.paid - coalesce((SELECT sum(s.paid) FROM stood s WHERE s.entry = "
          "e.entry), 0), e.entry, e.day FROM labour l JOIN entry e USING (entry) WHERE l.vehicle = :tag "
          "AND " +
          counts_on(":on") + " ORDER BY 1, 5, 6",
      {{":tag", tag}, {":on", on}},
      [&](Day day, const std::string& operation, Hours own, Hours paid, EntryId entry, Day stands) {
        if (own == Hours{} && paid == Hours{}) return;
        figures::Work& work = all.emplace_back();
        work.day = day;
        work.operation = operation;
        work.own = own;
        work.paid = paid;
        work.entry = entry;
        work.after_sale = life.ended != 0 && stands > life.ended_stands;
      });
  return all;
}

std::vector<std::pair<Day, Money>> adverts_of(const Book& book, const std::string& tag) {
  std::vector<std::pair<Day, Money>> all;
  each<Day, Money>(
      book,
      "SELECT e.day, a.price FROM advert a JOIN live_entry e USING (entry) WHERE a.vehicle = :tag ORDER BY "
      "e.day, e.entry",
      {{":tag", tag}}, [&](Day day, Money price) { all.emplace_back(day, price); });
  return all;
}

}  // namespace nonrunner::book

#include "book/questions/salvage.h"

namespace nonrunner::book {

SalvageParts salvage_parts(const Book& book, std::optional<Day> before) {
  auto& sums = book.query(
      "SELECT coalesce(sum(l.quantity), 0), coalesce(sum((SELECT sum(g.quantity) FROM given_back g JOIN "
      "live_entry ge USING (entry) "
      "WHERE g.line = l.line AND g.what = 'goods')), 0) "
      "FROM line l JOIN live_entry e USING (entry) WHERE l.kind = 'part' AND l.source = 'salvage' AND "
      "l.amount > 0 AND e.day < ?");
  sums.bind(1, before ? before->iso() : "9999-12-31");
  sums.executeStep();
  const SalvageParts parts{Quantity::of(sums.getColumn(0).getInt64()),
                           Quantity::of(sums.getColumn(1).getInt64())};
  sums.tryReset();
  return parts;
}

}  // namespace nonrunner::book

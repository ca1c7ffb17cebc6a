#include "book/questions/salvage.h"

#include "book/ledger/query.h"

namespace nonrunner::book {

SalvageParts salvage_parts(const Book& book, std::optional<Day> before) {
  SalvageParts parts;
  row(book,
      "SELECT coalesce(sum(l.quantity), 0), coalesce(sum((SELECT sum(g.quantity) FROM given_back g JOIN "
      "live_entry ge "
      "USING (entry) WHERE g.line = l.line AND g.what = 'goods')), 0) FROM line l JOIN live_entry e USING "
      "(entry) "
      "WHERE l.kind = 'part' AND l.source = 'salvage' AND l.amount > 0 AND e.day < :before",
      {{":before", before}}, [&](const Row& sums) { sums.into(parts.bought, parts.went_back); });
  return parts;
}

}  // namespace nonrunner::book

#include "book/questions/lately.h"

#include "book/ledger/query.h"

namespace nonrunner::book {

std::vector<std::string> cars_lately(const Book& book) {
  std::vector<std::string> all;
  each<std::string>(book,
                    "SELECT m.vehicle FROM mention m JOIN live_entry e USING (entry) WHERE e.kind IN ('buy', "
                    "'receipt', 'hours', 'draw', 'transfer') GROUP BY m.vehicle ORDER BY max(e.entry) DESC",
                    {}, [&](const std::string& tag) { all.push_back(tag); });
  return all;
}

std::vector<std::string> suppliers_lately(const Book& book) {
  std::vector<std::string> all;
  each<std::string>(book,
                    "SELECT p.supplier FROM paper p JOIN live_entry e USING (entry) WHERE p.supplier <> '' "
                    "GROUP BY p.supplier ORDER BY max(e.entry) DESC LIMIT 40",
                    {}, [&](const std::string& supplier) { all.push_back(supplier); });
  return all;
}

std::vector<std::string> bought_lately(const Book& book) {
  constexpr std::size_t offered = 8;
  // All that have no name yet are called alike: one more than is offered.
  std::vector<std::string> all;
  each<std::string, bool>(
      book,
      "SELECT b.what, EXISTS (SELECT 1 FROM unnamed u WHERE u.line = b.line) FROM (SELECT what, max(line) AS "
      "line FROM line JOIN live_entry USING (entry) GROUP BY what ORDER BY max(line) DESC LIMIT :more) b "
      "ORDER BY b.line DESC",
      {{":more", static_cast<std::int64_t>(offered + 1)}}, [&](const std::string& what, bool unnamed) {
        if (all.size() < offered && !unnamed) all.push_back(what);
      });
  return all;
}

}  // namespace nonrunner::book

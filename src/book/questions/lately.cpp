#include "book/questions/lately.h"

#include "book/ledger/query.h"
#include "book/questions/entry_now.h"

namespace nonrunner::book {

std::optional<std::string> last_car_of(const Book& book, const std::string& event) {
  return first<std::string>(book,
                            "SELECT m.vehicle FROM mention m JOIN live_entry e USING (entry) WHERE e.kind = "
                            ":event ORDER BY e.entry DESC LIMIT 1",
                            {{":event", event}});
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
  // All that have no name yet are called alike: one more than is offered. Of quick lines alone the event is wanted.
  std::vector<std::string> all;
  each<std::string, std::string>(
      book,
      "SELECT b.what, CASE WHEN p.itemised = 0 THEN e.event ELSE '' END FROM (SELECT what, max(line) AS line "
      "FROM line JOIN live_entry USING (entry) GROUP BY what ORDER BY max(line) DESC LIMIT :more) b JOIN "
      "line "
      "l USING (line) JOIN paper p USING (entry) JOIN entry e USING (entry) ORDER BY b.line DESC",
      {{":more", static_cast<std::int64_t>(offered + 1)}},
      [&](const std::string& what, const std::string& event) {
        if (all.size() < offered && (event.empty() || !is_unnamed(event))) all.push_back(what);
      });
  return all;
}

}  // namespace nonrunner::book

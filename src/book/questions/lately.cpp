#include "book/questions/lately.h"

#include "book/events/quick_line.h"
#include "book/ledger/query.h"

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
  std::vector<std::string> all;
  each<std::string>(book,
                    "SELECT l.what FROM line l JOIN live_entry e USING (entry) WHERE l.what <> :unnamed "
                    "GROUP BY l.what ORDER BY max(l.line) DESC LIMIT 8",
                    {{":unnamed", not_named_yet}}, [&](const std::string& what) { all.push_back(what); });
  return all;
}

}  // namespace nonrunner::book

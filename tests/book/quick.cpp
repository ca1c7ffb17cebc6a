// What keeps a large book quick: a search begins at what is asked for, never at all entries.
#include <catch2/catch.hpp>

#include "book/faults_shop.h"

using namespace nonrunner;
using namespace nonrunner::faults;

TEST_CASE("a search among the entries that count begins at the paper, the line or the car asked for",
          "[book]") {
  const Folder folder;
  const book::Book book = book::Book::open(make_shop(folder.path));
  for (const char* asked :
       {"paper p JOIN live_entry e USING (entry) WHERE p.supplier = 'a' AND p.number = 'b'",
        "line l JOIN live_entry e USING (entry) WHERE l.id = 'a'",
        "mention m JOIN live_entry e USING (entry) WHERE m.vehicle = 'a'",
        "life l JOIN live_entry e USING (entry) WHERE l.vehicle = 'a'",
        "given_back g JOIN live_entry e USING (entry) WHERE g.line = 1"}) {
    SQLite::Statement plan(book.database(), std::string("EXPLAIN QUERY PLAN SELECT e.entry FROM ") + asked);
    std::string first;
    while (plan.executeStep())
      if (first.empty()) first = plan.getColumn(3).getString();
    INFO(asked << ": " << first);
    CHECK(first.rfind("SEARCH e ", 0) != 0);
    CHECK(first.rfind("SCAN", 0) != 0);
  }
}

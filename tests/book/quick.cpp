// What keeps a large book quick: a search begins at what is asked for, never at all entries.
#include <sqlite3.h>

#include <catch2/catch.hpp>

#include "book/faults_shop.h"
#include "book/fixture.h"
#include "book/ledger/entry.h"

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

namespace {
// How many steps of SQLite it takes to know up to which day the book is closed.
int steps_to_closed(const book::Book& book) {
  book::closed_until(book);  // prepared
  int steps = 0;
  const auto count = [](void* data) { return ++*static_cast<int*>(data), 0; };
  sqlite3_progress_handler(book.database().getHandle(), 1, count, &steps);
  book::closed_until(book);
  sqlite3_progress_handler(book.database().getHandle(), 0, nullptr, nullptr);
  return steps;
}
}  // namespace

TEST_CASE("up to which day a book is closed is known without a look at every entry", "[book]") {
  book::Shop shop;
  const std::string entered = "{ do = \"owner in\", date = 2025-03-01, purse = \"cash\", amount = 1.00 }";
  shop.post(entered);
  const int few = steps_to_closed(shop.book());
  CHECK(few > 0);
  std::string many = entered;
  for (int i = 0; i < 200; ++i) many += ", " + entered;
  shop.post(many);
  CHECK(steps_to_closed(shop.book()) == few);
}

// What an entry says of its car's budget beside what it moves: each key of the reference is taken, kept and
// written back.
#include "book/ledger/marks.h"

#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::book;

TEST_CASE("each key by which an event says something of the budget is taken, kept and written back",
          "[book]") {
  for (const MarkKey& mark : mark_keys()) {
    INFO(mark.key);
    const std::string kind = mark.kind;
    const std::string value = kind == "true or false"         ? "true"
                              : kind.starts_with("a list of") ? "[\"seat\"]"
                                                              : "\"seat\"";
    const std::string said = std::string(mark.key) + " = " + value;
    Shop shop;
    shop.post("{ do = \"buy\", date = 2025-06-01, vehicle = \"pip\", price = 400.00, purse = \"cash\" }");
    const EntryId entry =
        shop.post("{ do = \"hours\", date = 2025-06-02, vehicle = \"pip\", operation = \"seat\", own = 1, " +
                  said + " }");
    const auto marks = marks_of(shop.book(), "pip");
    REQUIRE(marks.size() == 1);
    CHECK(marks.front().entry == entry);
    CHECK(marks.front().name == "seat");
    CHECK(load_entry(shop.book(), entry).event.find(said) != std::string::npos);
  }
}

#include "book/ledger/query.h"

#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::book;

TEST_CASE("columns come as the types that they are, and names are bound by name", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 12.50 })");
  int rows = 0;
  each<Day, EntryId, std::string, Money, std::optional<Quantity>>(
      shop.book(),
      "SELECT e.day, e.entry, a.name, p.amount, p.quantity FROM entry e JOIN posting p USING (entry) JOIN "
      "account a "
      "USING (account) WHERE a.kind = :kind AND e.day <= :on",
      {{":kind", "purse"}, {":on", std::optional<Day>()}},
      [&](Day day, EntryId entry, const std::string& purse, Money amount, std::optional<Quantity> quantity) {
        ++rows;
        CHECK(day == on("2025-03-01"));
        CHECK(entry == 1);
        CHECK(purse == "cash");
        CHECK(amount == usd("12.50"));
        CHECK(!quantity);
      });
  CHECK(rows == 1);
  CHECK(first<Money>(shop.book(), "SELECT sum(amount) FROM posting WHERE entry = :entry", {{":entry", 1}}) ==
        usd("0"));
  CHECK(!first<EntryId>(shop.book(), "SELECT entry FROM entry WHERE entry > :last", {{":last", 1}}));
}

TEST_CASE("a question leaves no read transaction open, also where taking a row throws", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 1 },
               { do = "owner in", date = 2025-03-01, purse = "cash", amount = 2 })");
  const auto entries = [&](const std::function<bool(const Row&)>& take) {
    ask(shop.book(), "SELECT entry FROM entry ORDER BY entry", {}, take);
  };
  entries([](const Row&) { return false; });
  CHECK_THROWS_AS(entries([](const Row&) -> bool { throw std::runtime_error("no"); }), std::runtime_error);
  // With a statement still at work the book could not be checkpointed whole.
  SQLite::Statement checkpoint(shop.book().database(), "PRAGMA wal_checkpoint(TRUNCATE)");
  REQUIRE(checkpoint.executeStep());
  CHECK(checkpoint.getColumn(0).getInt() == 0);
}

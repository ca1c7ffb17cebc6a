// The promises of the book, attacked one by one with raw SQL through the book's own connection. Each attack
// is refused by the database itself, with the promise as its message.
#include <fmt/format.h>

#include "book/events/correct.h"
#include "book/full_shop.h"
#include "book/ledger/entry.h"
#include "book/ledger/query.h"
#include "book/ledger/settings.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

// The statement that closes an entry over what was inserted before it. The database cannot know SHA-256;
// `check` does.
std::string entry_row(EntryId id, const std::string& money = "1", const std::string& voids = "NULL",
                      const std::string& day = "'2025-03-11'") {
  return fmt::format(
      "INSERT INTO entry VALUES ({0}, {1}, 'move', {2}, '{{}}', {3}, '2025-03-11T10:00:00Z', "
      "(SELECT hash FROM entry WHERE entry = {0} - 1), randomblob(32));",
      id, day, money, voids);
}
std::string posting_row(EntryId id, int seq, const std::string& amount, int account = 1) {
  return fmt::format("INSERT INTO posting VALUES ({}, {}, {}, {}, NULL, NULL);", id, seq, account, amount);
}
std::string in_transaction(const std::string& statements) { return "BEGIN;" + statements + "COMMIT"; }

}  // namespace

TEST_CASE("an entry written by hand that keeps every promise is taken, and its balances with it", "[book]") {
  FullShop shop;
  const Money cash = shop.purse("cash"), owner = shop.balance("owner");
  CHECK(shop.sql(in_transaction(posting_row(11, 1, "500") + posting_row(11, 2, "-500", 2) + entry_row(11))) ==
        "done");
  CHECK(shop.purse("cash") == cash + usd("5"));
  CHECK(shop.balance("owner") == owner - usd("5"));
  // Another conflict clause must not reach into the trigger that keeps the balances.
  CHECK(shop.sql(in_transaction("INSERT OR REPLACE INTO posting VALUES (12, 1, 1, 500, NULL, NULL);"
                                "INSERT OR IGNORE INTO posting VALUES (12, 2, 2, -500, NULL, NULL);" +
                                entry_row(12))) == "done");
  CHECK(shop.purse("cash") == cash + usd("10"));
  CHECK(shop.balance("owner") == owner - usd("10"));
}

TEST_CASE("an entry that does not add up is refused", "[book]") {
  FullShop shop;
  const std::string refused = "entry does not add up to zero";
  CHECK(shop.sql(in_transaction(posting_row(11, 1, "500") + posting_row(11, 2, "-499", 2) + entry_row(11))) ==
        refused);
  CHECK(shop.sql(in_transaction(posting_row(11, 1, "500") + entry_row(11))) == refused);
  CHECK(shop.sql(in_transaction(posting_row(11, 1, "0") + entry_row(11))) == refused);
  CHECK(shop.sql(in_transaction(entry_row(11))) == refused);
  // A memorandum moves no money.
  CHECK(shop.sql(in_transaction(posting_row(11, 1, "500") + posting_row(11, 2, "-500", 2) +
                                entry_row(11, "0"))) == refused);
  // Sums that leave 64 bits do not wrap round to zero.
  const std::string accounts =
      "INSERT INTO account VALUES (91, 'tools', 'a'), (92, 'tools', 'b'), (93, 'tools', 'c');";
  CHECK(shop.sql(in_transaction(accounts + posting_row(11, 1, "9223372036854775807", 91) +
                                posting_row(11, 2, "9223372036854775807", 92) + posting_row(11, 3, "2", 93) +
                                entry_row(11))) == "integer overflow");
  CHECK(shop.sql(in_transaction(accounts + posting_row(11, 1, "9223372036854775807", 91) +
                                posting_row(11, 2, "9223372036854775807", 91))) ==
        "cannot store REAL value in INTEGER column balance.amount");
  CHECK(shop.health().sound);
}

TEST_CASE("an amount is a whole number of minor units", "[book]") {
  FullShop shop;
  CHECK(shop.sql(posting_row(11, 1, "1.5")) == "cannot store REAL value in INTEGER column posting.amount");
  CHECK(shop.sql(posting_row(11, 1, "'much'")) == "cannot store TEXT value in INTEGER column posting.amount");
  CHECK(shop.sql(posting_row(11, 1, "NULL")) == "NOT NULL constraint failed: posting.amount");
}

TEST_CASE("entries, postings and details are never changed, deleted or replaced", "[book]") {
  FullShop shop;
  shop.post(R"({ do = "part out", date = 2025-03-11, vehicle = "pip", still_brings = 120.00 })");
  shop.post(R"({ do = "finding", date = 2025-03-11, vehicle = "pip", text = "wet", trouble = ["rot=there"] },
               { do = "plan", date = 2025-03-11, vehicle = "pip", name = "heater matrix", amount = 88.00 },
               { do = "done", date = 2025-03-11, vehicle = "pip", lines = ["heater matrix"] })");
  shop.record([](Recording& recording) { set(recording, "hour", "20"); });
  shop.post(
      R"({ do = "receipt", date = 2025-03-12, supplier = "Harrow", paid = "cash", discount = 1.00, tools = "asset", total = 39.00, line = [
                 { what = "oil", amount = 10.00, kind = "stock", stock = "oil", gives = 5 },
                 { what = "press", amount = 30.00, kind = "tool" }] },
               { do = "transfer", date = 2025-03-12, from = "tools", to = "pip", what = "press", amount = 5.00 },
               { do = "sell", date = 2025-03-13, vehicle = "pip", price = 900.00, purse = "cash", to = "A. Marlow" },
               { do = "close", date = 2025-03-13 },
               { do = "owner in", date = 2025-03-13, purse = "cash", amount = 1.00 },
               { do = "void", date = 2025-03-14, entry = 5, why = "put right" },
               { do = "hours", date = 2025-03-05, vehicle = "pip", operation = "brakes", own = 3, corrects = 5 },
               { do = "receipt", date = 2025-03-14, paid = "cash", total = 4.00, itemised = false, line = [
                 { what = "not named yet", amount = 4.00, kind = "part", to = "pip", unnamed = true }] })");
  Correction correction;
  correction.entry = *first<EntryId>(shop.book(), "SELECT max(entry) FROM entry WHERE kind = 'sell'", {});
  correction.amount = "950";
  shop.record([&](Recording& recording) { correct(recording, correction); });
  std::vector<std::string> details;
  for (const DetailTable& table : detail_tables()) details.push_back(table.name);
  CHECK(details.size() == 31);
  for (const std::string& table : details) {
    INFO(table);
    CHECK(shop.rows(table) > 0);
    CHECK(shop.sql("UPDATE " + table + " SET entry = entry") == "details of an entry are never changed");
    CHECK(shop.sql("UPDATE OR REPLACE " + table + " SET rowid = 99") ==
          "details of an entry are never changed");
    CHECK(shop.sql("DELETE FROM " + table) == "details of an entry are never deleted");
    CHECK(shop.sql("INSERT INTO " + table + " SELECT * FROM " + table) == "entry is closed");
    CHECK(shop.sql("INSERT OR REPLACE INTO " + table + " SELECT * FROM " + table) == "entry is closed");
  }
  CHECK(shop.sql("UPDATE posting SET amount = 0") == "postings are never changed");
  CHECK(shop.sql("DELETE FROM posting") == "postings are never deleted");
  CHECK(shop.sql("INSERT OR REPLACE INTO posting SELECT * FROM posting") == "entry is closed");
  CHECK(shop.sql("UPDATE entry SET day = '2020-01-01'") == "entries are never changed");
  CHECK(shop.sql("UPDATE OR IGNORE entry SET voids = 1 WHERE entry = 10") == "entries are never changed");
  CHECK(shop.sql("DELETE FROM entry WHERE entry = 10") == "entries are never deleted");
  CHECK(shop.sql("INSERT OR REPLACE INTO entry SELECT * FROM entry WHERE entry = 10") ==
        "entry does not follow the last one");
  CHECK(shop.health().sound);
}

TEST_CASE("what a new row would push aside is not pushed aside", "[book]") {
  FullShop shop;
  // INSERT OR REPLACE deletes what is in its way; the triggers are asked for that as well.
  CHECK(shop.sql("INSERT OR REPLACE INTO line SELECT 11, line, id, what, quantity, 1, kind, source, taxed, "
                 "tax, extra, "
                 "core, core_tax, core_by, stock, gives, supplier FROM line") ==
        "details of an entry are never deleted");
  CHECK(shop.sql("INSERT OR REPLACE INTO account VALUES (1, 'purse', 'elsewhere')") ==
        "accounts are never deleted");
  CHECK(shop.sql("INSERT OR REPLACE INTO account (kind, name) VALUES ('purse', 'cash')") ==
        "accounts are never deleted");
  CHECK(shop.sql("REPLACE INTO vehicle VALUES ('pip')") == "vehicles are never deleted");
  shop.post("{ do = \"void\", date = 2025-03-11, entry = 10, why = \"not bent\" }");
  CHECK(shop.sql("INSERT OR REPLACE INTO entry VALUES (12, '2025-03-11', 'void', 0, '{}', 10, '', "
                 "(SELECT hash FROM entry WHERE entry = 11), randomblob(32))") ==
        "entries are never deleted");
  CHECK(shop.health().sound);
}

TEST_CASE("accounts and vehicles keep their meaning", "[book]") {
  FullShop shop;
  CHECK(shop.sql("UPDATE account SET name = 'pocket' WHERE name = 'cash'") == "accounts are never changed");
  CHECK(shop.sql("DELETE FROM account") == "accounts are never deleted");
  CHECK(shop.sql("UPDATE vehicle SET tag = 'pop'") == "vehicles are never renamed");
  CHECK(shop.sql("DELETE FROM vehicle") == "vehicles are never deleted");
  CHECK_THAT(shop.sql("INSERT INTO account VALUES (99, 'slush', '')"),
             Catch::StartsWith("CHECK constraint failed"));
  CHECK_THAT(shop.sql("INSERT INTO vehicle VALUES ('Pip!')"), Catch::StartsWith("CHECK constraint failed"));
}

TEST_CASE("an old entry takes no further posting and no further detail", "[book]") {
  FullShop shop;
  CHECK(shop.sql(in_transaction(posting_row(1, 3, "500") + posting_row(1, 4, "-500", 2))) ==
        "entry is closed");
  CHECK(shop.sql("INSERT INTO share VALUES (3, 1, 'pip', 500)") == "entry is closed");
  CHECK(shop.sql("INSERT INTO life VALUES (2, 'pip', 'sold')") == "entry is closed");
  CHECK(shop.sql(in_transaction(entry_row(11, "0") + "INSERT INTO mention VALUES (11, 'pip');")) ==
        "entry is closed");
}

TEST_CASE("a new entry does not add to the lines of an old one", "[book]") {
  FullShop shop;
  CHECK(shop.sql("INSERT INTO vehicle VALUES ('teal'); INSERT INTO share VALUES (11, 1, 'teal', 1000)") ==
        "a share belongs to a line of its own entry");
  CHECK(shop.sql("INSERT INTO given_back VALUES (3, 1, 'core', 1000, 800, 0, 0)") == "entry is closed");
  CHECK(shop.sql("INSERT INTO given_back VALUES (11, 7, 'core', 1000, 800, 0, 0)") ==
        "FOREIGN KEY constraint failed");
}

TEST_CASE("a posting or a detail without an entry does not survive the commit", "[book]") {
  FullShop shop;
  CHECK(shop.sql(in_transaction(posting_row(11, 1, "500") + posting_row(11, 2, "-500", 2))) ==
        "FOREIGN KEY constraint failed");
  CHECK(shop.sql(in_transaction(posting_row(12, 1, "0"))) == "FOREIGN KEY constraint failed");
  CHECK(shop.sql("INSERT INTO mention VALUES (11, 'pip')") == "FOREIGN KEY constraint failed");
  CHECK(shop.sql(in_transaction("INSERT INTO labour VALUES (11, 'pip', 'brakes', 1000, 0, 0);")) ==
        "FOREIGN KEY constraint failed");
  CHECK(shop.sql(posting_row(11, 1, "500", 4711)) == "FOREIGN KEY constraint failed");
  CHECK(shop.sql("INSERT INTO mention VALUES (11, 'nobody')") == "FOREIGN KEY constraint failed");
  CHECK(shop.health().sound);
}

TEST_CASE("entries follow one another without a gap, each naming the hash of the one before", "[book]") {
  FullShop shop;
  const std::string refused = "entry does not follow the last one";
  const auto memorandum = [](const std::string& id, const std::string& previous) {
    return "INSERT INTO entry VALUES (" + id + ", '2025-03-11', 'finding', 0, '{}', NULL, '', " + previous +
           ", randomblob(32))";
  };
  const std::string last = "(SELECT hash FROM entry WHERE entry = 10)";
  CHECK(shop.sql(memorandum("12", last)) == refused);
  CHECK(shop.sql(memorandum("10", last)) == refused);
  CHECK_THAT(shop.sql(memorandum("0", last)), Catch::StartsWith(refused));
  CHECK(shop.sql(memorandum("11", "zeroblob(32)")) == refused);
  CHECK(shop.sql(memorandum("11", "(SELECT hash FROM entry WHERE entry = 9)")) == refused);
  CHECK_THAT(shop.sql("INSERT INTO entry VALUES (11, '2025-03-11', 'finding', 0, '{}', NULL, '', " + last +
                      ", x'00')"),
             Catch::StartsWith("CHECK constraint failed: length(hash) = 32"));
  CHECK(shop.sql(memorandum("11", last)) == "done");
}

TEST_CASE("an entry bears a day of the calendar", "[book]") {
  FullShop shop;
  for (const char* day : {"'2025-02-30'", "'2025-3-1'", "'soon'", "''", "'2025-03-11T10:00'", "'20250311'"}) {
    INFO(day);
    CHECK_THAT(shop.sql(in_transaction(entry_row(11, "0", "NULL", day))),
               Catch::StartsWith("CHECK constraint failed"));
  }
}

TEST_CASE("an entry is voided once, by its mirror image, and a reversal is never voided", "[book]") {
  FullShop shop;
  const std::string mirror = posting_row(11, 1, "-100000") + posting_row(11, 2, "100000", 2);
  const std::string its_day = "'2025-03-01'";
  const std::string unlike = "a reversal takes back exactly what was entered";
  CHECK(shop.sql(in_transaction(posting_row(11, 1, "-99999") + posting_row(11, 2, "99999", 2) +
                                entry_row(11, "1", "1", its_day))) == unlike);
  CHECK(shop.sql(in_transaction(posting_row(11, 1, "-100000") + posting_row(11, 2, "100000", 3) +
                                entry_row(11, "1", "1", its_day))) == unlike);
  // On a later day it stands under that of what it takes back.
  CHECK(shop.sql(in_transaction(mirror + entry_row(11, "1", "1"))) == unlike);
  CHECK(shop.sql(in_transaction(entry_row(11, "0", "1"))) == unlike);
  CHECK(shop.sql(in_transaction(mirror + entry_row(11, "1", "4711", its_day))) == unlike);
  CHECK(shop.sql(in_transaction(entry_row(11, "0", "4711"))) == "a reversal cannot be voided");
  CHECK(shop.sql(in_transaction(entry_row(11, "0", "11"))) == "a reversal cannot be voided");
  CHECK(shop.sql(in_transaction(mirror + entry_row(11, "1", "1", its_day))) == "done");
  const std::string again = posting_row(12, 1, "-100000") + posting_row(12, 2, "100000", 2);
  CHECK(shop.sql(in_transaction(again + entry_row(12, "1", "1", its_day))) ==
        "UNIQUE constraint failed: entry.voids");
  const std::string back = posting_row(12, 1, "100000") + posting_row(12, 2, "-100000", 2);
  CHECK(shop.sql(in_transaction(back + entry_row(12, "1", "11", its_day))) == "a reversal cannot be voided");
}

TEST_CASE("the reversal of stock takes back its pieces too", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-03, supplier = "Harrow", paid = { cash = 10.00 }, total = 10.00,
                 line = [{ what = "gloves", amount = 10.00, kind = "stock", stock = "gloves", gives = 100 }] })");
  const std::string money = "INSERT INTO posting SELECT 2, seq, account, -amount, ";
  CHECK(shop.sql(in_transaction(money + "NULL, NULL FROM posting WHERE entry = 1;" +
                                entry_row(2, "1", "1", "'2025-03-03'"))) ==
        "a reversal takes back exactly what was entered");
  CHECK(shop.sql(in_transaction(money + "-quantity, NULL FROM posting WHERE entry = 1;" +
                                entry_row(2, "1", "1", "'2025-03-03'"))) == "done");
  CHECK(shop.shelf("gloves").quantity == Quantity{});
}

TEST_CASE("an opened book has every pragma that its promises need", "[book]") {
  Shop shop;
  shop.reopen();
  const auto pragma = [&](const std::string& name) {
    return shop.book().database().execAndGet("PRAGMA " + name).getString();
  };
  CHECK(pragma("foreign_keys") == "1");
  CHECK(pragma("recursive_triggers") == "1");
  CHECK(pragma("synchronous") == "2");  // FULL
  CHECK(pragma("temp_store") == "2");   // MEMORY: nothing of a book in a folder for temporary files
  CHECK(pragma("journal_mode") == "wal");
  CHECK(pragma("busy_timeout") == "60000");
  CHECK(pragma("trusted_schema") == "0");
  CHECK(pragma("ignore_check_constraints") == "0");
}

TEST_CASE("every table of a book is strict", "[book]") {
  Shop shop;
  CHECK(shop.book()
            .database()
            .execAndGet(
                "SELECT group_concat(name) FROM pragma_table_list WHERE schema = 'main' AND type = 'table' "
                "AND strict = 0 AND name NOT LIKE 'sqlite_%'")
            .isNull());
}

TEST_CASE("the book's own connection does not take its safeguards away", "[book]") {
  FullShop shop;
  for (const char* attack :
       {"PRAGMA foreign_keys = OFF", "PRAGMA recursive_triggers = OFF",
        "PRAGMA ignore_check_constraints = ON", "PRAGMA writable_schema = ON", "PRAGMA journal_mode = DELETE",
        "PRAGMA synchronous = OFF", "PRAGMA user_version = 1", "DROP TRIGGER entry_balances",
        "DROP TABLE posting", "DROP INDEX entry_by_day", "DROP VIEW live_entry",
        "ALTER TABLE entry ADD COLUMN more", "ALTER TABLE entry RENAME TO old", "CREATE TABLE more (x)",
        "CREATE TRIGGER more BEFORE INSERT ON entry BEGIN SELECT RAISE(IGNORE); END",
        "CREATE TEMP TRIGGER more BEFORE INSERT ON entry BEGIN SELECT RAISE(IGNORE); END"}) {
    INFO(attack);
    CHECK(shop.sql(attack) == "not authorized");
  }
  CHECK(shop.health().sound);
}

TEST_CASE("no other program does away with the log of a book that is being written to", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 5.00 })");
  {
    SQLite::Database other(shop.file().string(), SQLite::OPEN_READWRITE);
    CHECK_THROWS_WITH(other.execAndGet("PRAGMA journal_mode = DELETE"), "database is locked");
  }
  shop.post(R"({ do = "owner in", date = 2025-03-02, purse = "cash", amount = 6.00 })");
  CHECK(shop.book().database().execAndGet("PRAGMA journal_mode").getString() == "wal");
}

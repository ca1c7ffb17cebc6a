// Changes made behind the book's back, with another SQLite program and its triggers taken away: `check` finds
// each and names the entry.
#include <algorithm>
#include <fstream>

#include "book/full_shop.h"

using namespace nonrunner;
using namespace nonrunner::book;
using Findings = std::vector<std::string>;

namespace {

struct Tampered : FullShop {
  Tampered() {
    post("{ do = \"void\", date = 2025-03-10, entry = 10, why = \"not bent\" }");
    close();
  }

  // Everything that a change would run into is taken away and put back afterwards, so that only the chain can
  // tell.
  Findings after(const std::string& change) {
    std::string drop, restore;
    {
      SQLite::Database other(file().string(), SQLite::OPEN_READONLY);
      SQLite::Statement triggers(other, "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
      while (triggers.executeStep()) {
        drop += "DROP TRIGGER " + triggers.getColumn(0).getString() + ";";
        restore += triggers.getColumn(1).getString() + ";";
      }
    }
    behind_its_back(file(), drop + change + ";" + restore);
    // Changed hours and amounts also show in the sums kept beside them, and where they are shown; here it counts that the
    // entry is named.
    Findings all = findings();
    std::erase_if(all, [](const std::string& each) {
      return each.find("the sum of its hours") != std::string::npos ||
             each.find("what was turned over") != std::string::npos ||
             each.find("sums by days") != std::string::npos ||
             each.find("cannot be shown") != std::string::npos;
    });
    return all;
  }
  Findings findings() {
    reopen();
    const Health health = this->health();
    CHECK(health.sound == health.findings.empty());
    close();
    return health.findings;
  }
};

const std::string was_changed = ": was changed behind the program's back";

}  // namespace

TEST_CASE("a book that nobody touched is sound", "[book]") {
  Tampered shop;
  CHECK(shop.after("SELECT 1").empty());
}

TEST_CASE("a change of any field of any row of an entry is found and named by its entry", "[book]") {
  const auto [change, entry] = GENERATE(table<const char*, const char*>({
      {"UPDATE entry SET day = '2025-03-03' WHERE entry = 2", "entry 2"},
      {"UPDATE entry SET kind = 'sell' WHERE entry = 2", "entry 2"},
      {"UPDATE entry SET event = replace(event, '300', '200') WHERE entry = 2", "entry 2"},
      {"UPDATE entry SET recorded = '2024-01-01T00:00:00Z' WHERE entry = 2", "entry 2"},
      {"UPDATE entry SET voids = 9 WHERE entry = 11", "entry 11"},
      {"UPDATE line SET what = 'starter'", "entry 3"},
      {"UPDATE line SET id = 'ALT'", "entry 3"},
      {"UPDATE line SET quantity = 2000", "entry 3"},
      {"UPDATE line SET core_by = '2025-12-31'", "entry 3"},
      {"UPDATE line SET source = 'salvage'", "entry 3"},
      {"UPDATE share SET weight = 2000", "entry 3"},
      {"UPDATE paper SET total = 1", "entry 3"},
      {"UPDATE paper SET itemised = 0", "entry 3"},
      {"UPDATE given_back SET goods = 1", "entry 4"},
      {"UPDATE given_back SET kept = 1", "entry 4"},
      {"UPDATE labour SET own = 100", "entry 5"},
      {"UPDATE labour SET operation = 'engine'", "entry 5"},
      {"UPDATE trip SET distance = 1", "entry 6"},
      {"UPDATE advert SET price = 1", "entry 7"},
      {"UPDATE deposit_by SET by_day = NULL", "entry 8"},
      {"UPDATE attachment SET name = 'other.jpg'", "entry 9"},
      {"UPDATE life SET turn = 'passed'", "entry 2"},
      {"DELETE FROM life", "entry 2"},
      {"DELETE FROM given_back", "entry 4"},
      {"DELETE FROM mention WHERE entry = 7", "entry 7"},
      {"INSERT INTO mention VALUES (1, 'pip')", "entry 1"},
      {"INSERT INTO labour VALUES (5, 'pip', 'more', 1000, 0, 0)", "entry 5"},
  }));
  Tampered shop;
  INFO(change);
  CHECK(shop.after(change) == Findings{entry + was_changed});
}

TEST_CASE("money moved behind the book's back is found, whether it still adds up or not", "[book]") {
  Tampered shop;
  CHECK(shop.after("UPDATE posting SET amount = 1 WHERE entry = 2 AND seq = 1") ==
        Findings{"entry 2" + was_changed, "entry 2: does not add up to zero, -29999 minor units are over",
                 "account vehicle cost pip: its balance is not the sum of its postings"});
  CHECK(shop.after(
            "UPDATE posting SET amount = -1 WHERE entry = 2 AND seq = 2; UPDATE balance SET amount = (SELECT "
            "sum(amount) FROM posting p WHERE p.account = balance.account)") ==
        Findings{"entry 2" + was_changed});
}

TEST_CASE("an entry that is made to count as moving no money is found", "[book]") {
  Tampered shop;
  CHECK(shop.after("UPDATE entry SET money = 0 WHERE entry = 2") == Findings{"entry 2" + was_changed});
  CHECK(shop.after("UPDATE entry SET money = 1 - money WHERE entry IN (2, 5)") ==
        Findings{"entry 5" + was_changed});
}

TEST_CASE("an account that was renamed is found through its entries", "[book]") {
  Tampered shop;
  CHECK(shop.after("UPDATE account SET name = 'puller 2' WHERE kind = 'tool deposit'") ==
        Findings{"entry 8" + was_changed});
}

TEST_CASE("a balance that is not the sum of its postings is found", "[book]") {
  Tampered shop;
  CHECK(shop.after("UPDATE balance SET amount = amount + 1 WHERE account = 1") ==
        Findings{"account purse cash: its balance is not the sum of its postings",
                 "accounts: the trial balance is not zero"});
}

TEST_CASE("amounts beyond every range are findings, not a way out of the check", "[book]") {
  Tampered shop;
  const Findings found = shop.after("UPDATE posting SET amount = 9223372036854775807 WHERE entry = 2");
  REQUIRE(!found.empty());
  CHECK(found.front() ==
        "entry 2: cannot be read: an amount of 9223372036854775807 minor units is beyond what a book holds, "
        "expected at "
        "most 1000000000000000 either way");
  Tampered other;
  CHECK(other.after("UPDATE balance SET amount = 9223372036854775807 WHERE account = 1").size() == 2);
}

TEST_CASE("an entry taken out of the middle is found, and so is what it left", "[book]") {
  Tampered shop;
  CHECK(shop.after("DELETE FROM entry WHERE entry = 6") ==
        Findings{"file: table trip, row 1: refers to a row of entry that is not there",
                 "file: table mention, row 5: refers to a row of entry that is not there",
                 "file: table errand, row 1: refers to a row of entry that is not there",
                 "entry 6: is missing", "entry 7: does not follow entry 6: one of the two was changed",
                 "entry 6: has a trip and does not exist", "entry 6: has a mention and does not exist",
                 "entry 6: has a errand and does not exist"});
}

TEST_CASE("an entry resealed by somebody who knows how is found by the one after it", "[book]") {
  Tampered shop;
  shop.after("UPDATE labour SET own = 100");
  shop.reopen();
  const Hash hash = sealed(load_entry(shop.book(), 5), [&] {
    Hash before{};
    const SQLite::Column blob = shop.book().database().execAndGet("SELECT hash FROM entry WHERE entry = 4");
    std::copy_n(static_cast<const std::uint8_t*>(blob.getBlob()), before.size(), before.begin());
    return before;
  }());
  std::string hex;
  for (const std::uint8_t byte : hash) {
    constexpr char digits[] = "0123456789abcdef";
    hex += digits[byte / 16];
    hex += digits[byte % 16];
  }
  shop.close();
  CHECK(shop.after("UPDATE entry SET hash = x'" + hex + "' WHERE entry = 5") ==
        Findings{"entry 6: does not follow entry 5: one of the two was changed"});
}

TEST_CASE("a last entry cut off shows in the seal that was written down", "[book]") {
  Tampered shop;
  shop.reopen();
  const std::string written_down = shop.health().head;
  shop.close();
  CHECK(shop.after("DELETE FROM mention WHERE entry = 11; DELETE FROM entry WHERE entry = 11").empty());
  shop.reopen();
  CHECK(shop.health().head != written_down);
}

TEST_CASE("another program without our settings is held up by the triggers, or found out", "[book]") {
  Tampered shop;
  // No foreign keys, no recursive triggers: REPLACE gets past the triggers, and the chain tells.
  behind_its_back(
      shop.file(),
      "INSERT OR REPLACE INTO line SELECT 99, line, id, what, quantity, amount, kind, source, taxed, "
      "tax, extra, core, core_tax, core_by, stock, gives, supplier FROM line");
  CHECK(shop.findings() == Findings{"file: table line, row 1: refers to a row of entry that is not there",
                                    "entry 3" + was_changed, "entry 99: has a line and does not exist"});
  Tampered other;
  behind_its_back(
      other.file(),
      "INSERT OR REPLACE INTO account SELECT account, kind, 'pocket' FROM account WHERE name = 'cash'");
  const Findings found = other.findings();
  for (const char* entry : {"entry 1", "entry 2", "entry 3", "entry 4", "entry 8"})
    CHECK(std::count(found.begin(), found.end(), entry + was_changed) == 1);
  CHECK(found.size() == 5);
}

TEST_CASE("a safeguard taken away or added is found by its name", "[book]") {
  Tampered shop;
  behind_its_back(shop.file(),
                  "DROP TRIGGER entry_balances; DROP INDEX line_by_id; CREATE TABLE more (x);"
                  "DROP VIEW live_entry; CREATE VIEW live_entry AS SELECT * FROM entry");
  CHECK(shop.findings() == Findings{"layout: the index line_by_id is missing",
                                    "layout: the trigger entry_balances is missing",
                                    "layout: the view live_entry was changed",
                                    "layout: there is a table more that this program does not make"});
}

TEST_CASE("an attachment that was changed or lost is named by its entry", "[book]") {
  Tampered shop;
  const auto files = shop.file().string() + ".files";
  const auto kept = std::filesystem::directory_iterator(files)->path();
  std::ofstream(kept, std::ios::app) << "!";
  CHECK(shop.findings() == Findings{"entry 9: its attachment " + kept.string() + " was changed"});
  std::filesystem::remove(kept);
  CHECK(shop.findings() == Findings{"entry 9: its attachment " + kept.string() + " cannot be read"});
}

// Everything in a book that somebody with another SQLite program can change, one change at a time: each is found by
// `check` with its message, or found by the seal that was kept apart, or changes nothing that the book says. The triggers
// are taken away first and put back afterwards, so that only what is sealed or added up anew can tell.
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "book/care/heads.h"
#include "book/events/appraisals.h"
#include "book/events/assigned.h"
#include "book/events/clock.h"
#include "book/events/comparables.h"
#include "book/full_shop.h"
#include "book/ledger/desk_notes.h"
#include "book/ledger/settings.h"

using namespace nonrunner;
using namespace nonrunner::book;
namespace fs = std::filesystem;

namespace {

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

enum class Shows {
  in_check,     // the finding is one of check's
  in_the_head,  // check finds nothing: the last seal, kept apart, is not there any more
  at_opening,   // the book is not opened
  nowhere,      // it changes nothing that the book says
};

struct Tampering {
  const char* change;
  Shows shows;
  const char* finding;  // whole; of a book that is not opened: what the refusal ends with
};

// A shop with something in every table, entries after what lies on the desk, and its last seal kept apart.
class Sealed : public FullShop {
 public:
  Sealed() {
    record([](Recording& recording) {
      set(recording, "hour", "20");
      set(recording, "purse.visa", "liability");
      keep_comparable(recording, {0, "teal", usd("900"), true, Distance::parse("90000"), 2012,
                                  Quantity::of(3000), on("2025-02-01"), "by the church"});
      keep_appraisal(recording, "pip", on("2025-03-01"), 0, {"tag = \"pip\"", "", "{}"});
      assign(recording, {"pip", "alt", "", 0, "charging"});
      start_clock(recording, "me", "pip", "brakes");
      recording.book().database().exec("INSERT INTO taken_in VALUES ('aa', 'l.csv', '2025-01-01')");
      note_desk(recording, "file aa");
      nonrunner::book::close(recording, on("2025-02-28"));
    });
    post(R"({ do = "void", date = 2025-03-11, entry = 10, why = "not bent" },
            { do = "owner in", date = 2025-03-12, purse = "cash", amount = 5.00 })");
    remember_head(book(), heads(), today, false);
    before_ = said();
    close();
    pristine_ = bytes_of(file());
  }
  fs::path heads() const { return folder() / "heads"; }
  // What the book says of its money, its car and its desk.
  std::string said() {
    std::string text =
        purse("cash").plain(book().currency()) + " " + show("pip").cost.plain(book().currency());
    for (const auto& [name, value] : settings(book())) text += " " + name + "=" + value;
    return text + fmt::format(" {} entries", last_entry(book()));
  }

  // The findings after the change; `opening`: what the book was refused with, where it was.
  std::vector<std::string> after(const std::string& change, std::string& opening) {
    std::ofstream(file(), std::ios::binary | std::ios::trunc) << pristine_;
    for (const char* tail : {"-wal", "-shm"}) fs::remove(file().string() + tail);
    std::string drop, restore;
    {
      SQLite::Database other(file().string(), SQLite::OPEN_READONLY);
      SQLite::Statement triggers(other, "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
      while (triggers.executeStep()) {
        drop += "DROP TRIGGER " + triggers.getColumn(0).getString() + ";";
        restore += triggers.getColumn(1).getString() + ";";
      }
    }
    const bool of_layout =
        change.find("CREATE ") != std::string::npos || change.find("DROP ") != std::string::npos;
    behind_its_back(file(), of_layout ? change : drop + change + ";" + restore);
    opening = said_at([&] { reopen(); });
    if (!opening.empty()) return {};
    const std::vector<std::string> findings = health().findings;
    head_is_lost = lost_head(book(), heads()).has_value();
    says_the_same = findings.empty() && said() == before_;
    close();
    return findings;
  }
  bool head_is_lost = false, says_the_same = false;

 private:
  template <class Action>
  static std::string said_at(Action action) {
    const std::string text = Shop::said(action);
    return text == "accepted" ? "" : text;
  }
  std::string pristine_, before_;
};

const std::vector<Tampering>& tamperings() {
  static const std::vector<Tampering> all = {
      // Entries.
      {"UPDATE entry SET day = '2025-03-03' WHERE entry = 2", Shows::in_check,
       "entry 2: was changed behind the program's back"},
      {"UPDATE entry SET kind = 'sell' WHERE entry = 2", Shows::in_check,
       "entry 2: was changed behind the program's back"},
      {"UPDATE entry SET event = replace(event, '300', '200') WHERE entry = 2", Shows::in_check,
       "entry 2: was changed behind the program's back"},
      {"UPDATE entry SET recorded = '2024-01-01T00:00:00Z' WHERE entry = 2", Shows::in_check,
       "entry 2: was changed behind the program's back"},
      {"UPDATE entry SET money = 0 WHERE entry = 2", Shows::in_check,
       "entry 2: was changed behind the program's back"},
      {"UPDATE entry SET voids = 9 WHERE voids = 10", Shows::in_check,
       "entry 12: was changed behind the program's back"},
      {"UPDATE entry SET hash = zeroblob(32) WHERE entry = 5", Shows::in_check,
       "entry 6: does not follow entry 5: one of the two was changed"},
      {"UPDATE entry SET previous = zeroblob(32) WHERE entry = 5", Shows::in_check,
       "entry 5: does not follow entry 4: one of the two was changed"},
      {"DELETE FROM entry WHERE entry = 6", Shows::in_check, "entry 6: is missing"},
      {"DELETE FROM entry WHERE kind = 'close'", Shows::in_check, "entry 11: is missing"},
      // Postings and what is added up of them.
      {"UPDATE posting SET amount = 1 WHERE entry = 2 AND seq = 1", Shows::in_check,
       "entry 2: does not add up to zero, -29999 minor units are over"},
      {"UPDATE posting SET account = (SELECT account FROM account WHERE kind = 'owner') WHERE entry = 2 AND "
       "seq = 2",
       Shows::in_check, "entry 2: was changed behind the program's back"},
      {"UPDATE posting SET stands = '2025-01-01' WHERE entry = 3 AND seq = 1", Shows::in_check,
       "entry 3: was changed behind the program's back"},
      {"UPDATE balance SET amount = amount + 1 WHERE account = 1", Shows::in_check,
       "account purse cash: its balance is not the sum of its postings"},
      {"UPDATE account_day SET stands = '2025-01-01' WHERE account = 1 AND day = '2025-03-01'",
       Shows::in_check, "account purse cash: its sums by days are not those of its postings"},
      {"UPDATE account_sum SET amount = amount + 1 WHERE account = 1", Shows::in_check,
       "account purse cash: its sums by days are not those of its postings"},
      {"UPDATE account_sum SET last = '2024-01-01' WHERE account = 1", Shows::in_check,
       "account purse cash: its sums by days are not those of its postings"},
      {"UPDATE turned_over SET amount = 0", Shows::in_check,
       "accounts: the sum of what was turned over is not what the entries say"},
      {"UPDATE worked SET own = 1", Shows::in_check,
       "vehicle pip: the sum of its hours is not what its entries say"},
      {"UPDATE account SET name = 'pocket' WHERE name = 'cash'", Shows::in_check,
       "entry 1: was changed behind the program's back"},
      // Details.
      {"UPDATE line SET what = 'starter'", Shows::in_check, "entry 3: was changed behind the program's back"},
      {"UPDATE paper SET total = 1", Shows::in_check, "entry 3: was changed behind the program's back"},
      {"UPDATE given_back SET goods = 1", Shows::in_check, "entry 4: was changed behind the program's back"},
      {"UPDATE labour SET own = 100", Shows::in_check, "entry 5: was changed behind the program's back"},
      {"UPDATE trip SET distance = 1", Shows::in_check, "entry 6: was changed behind the program's back"},
      {"UPDATE purpose SET kind = 'fee' WHERE entry = 3", Shows::in_check,
       "entry 3: was changed behind the program's back"},
      {"DELETE FROM mention WHERE entry = 7", Shows::in_check,
       "entry 7: was changed behind the program's back"},
      {"UPDATE attachment SET name = 'other.jpg'", Shows::in_check,
       "entry 9: was changed behind the program's back"},
      // The desk.
      {"UPDATE setting SET value = 'JPY' WHERE name = 'currency'", Shows::in_check,
       "setting currency: was changed behind the program's back"},
      {"UPDATE setting SET value = 'EUR' WHERE name = 'currency'", Shows::in_check,
       "setting currency: was changed behind the program's back"},
      {"DELETE FROM setting WHERE name = 'currency'", Shows::at_opening,
       ": the file is damaged: the currency of the book cannot be read: there is none; bring back the last "
       "backup "
       "or export with: nonrunner restore FROM --book NEW"},
      {"UPDATE setting SET value = 'km' WHERE name = 'distance'", Shows::in_check,
       "setting distance: was changed behind the program's back"},
      {"INSERT INTO setting VALUES ('closed', 'banana')", Shows::in_check,
       "setting closed: was added behind the program's back"},
      {"UPDATE setting SET value = 'banana' WHERE name = 'hour'", Shows::in_check,
       "setting hour: was changed behind the program's back"},
      {"DELETE FROM setting WHERE name = 'hour'", Shows::in_check,
       "setting hour: was taken away behind the program's back"},
      {"UPDATE setting SET value = 'asset' WHERE name = 'purse.visa'", Shows::in_check,
       "setting purse.visa: was changed behind the program's back"},
      {"UPDATE appraisal SET figures = '{ }'", Shows::in_check,
       "appraisal 1: was changed behind the program's back"},
      {"UPDATE appraisal SET job = 'x'", Shows::in_check,
       "appraisal 1: was changed behind the program's back"},
      {"UPDATE appraisal SET entry = 2", Shows::in_check,
       "appraisal 1: was changed behind the program's back"},
      {"DELETE FROM appraisal", Shows::in_check, "appraisal 1: was taken away behind the program's back"},
      {"UPDATE comparable SET price = 1", Shows::in_check,
       "comparable 1: was changed behind the program's back"},
      {"DELETE FROM comparable", Shows::in_check, "comparable 1: was taken away behind the program's back"},
      {"UPDATE assigned SET heading = 'parts'", Shows::in_check,
       "heading pip line alt: was changed behind the program's back"},
      {"DELETE FROM assigned", Shows::in_check,
       "heading pip line alt: was taken away behind the program's back"},
      {"DELETE FROM taken_in", Shows::in_check, "file aa: was taken away behind the program's back"},
      {"UPDATE desk_note SET value = '21' WHERE what = 'setting hour'", Shows::in_check,
       "setting hour: was changed behind the program's back"},
      // The layout.
      {"CREATE TABLE sqlitex_q (x)", Shows::in_check,
       "layout: there is a table sqlitex_q that this program does not make"},
      {"CREATE INDEX sqlitex_i ON entry (kind)", Shows::in_check,
       "layout: there is a index sqlitex_i that this program does not make"},
      {"CREATE VIEW sqlite1 AS SELECT 1", Shows::in_check,
       "layout: there is a view sqlite1 that this program does not make"},
      {"CREATE TRIGGER sqlitex_q BEFORE INSERT ON setting BEGIN SELECT RAISE(IGNORE); END", Shows::in_check,
       "layout: there is a trigger sqlitex_q that this program does not make"},
      {"PRAGMA writable_schema = ON; INSERT INTO sqlite_schema VALUES ('trigger', 'sqlite_evil', 'setting', "
       "0, "
       "'CREATE TRIGGER sqlite_evil BEFORE INSERT ON setting BEGIN SELECT RAISE(IGNORE); END')",
       Shows::in_check, "layout: there is a trigger sqlite_evil that this program does not make"},
      {"DROP TRIGGER entry_keeps", Shows::in_check, "layout: the trigger entry_keeps is missing"},
      {"DROP INDEX line_by_id", Shows::in_check, "layout: the index line_by_id is missing"},
      // The end of the journal, which no entry after it seals.
      {"DELETE FROM posting WHERE entry = 13; DELETE FROM purpose WHERE entry = 13; DELETE FROM mention "
       "WHERE entry = "
       "13; DELETE FROM entry WHERE entry = 13; UPDATE balance SET amount = (SELECT coalesce(sum(p.amount), "
       "0) FROM "
       "posting p WHERE p.account = balance.account); DELETE FROM account_day WHERE day = '2025-03-12'; "
       "UPDATE "
       "account_sum SET amount = (SELECT sum(d.amount) FROM account_day d WHERE d.account = "
       "account_sum.account), last = (SELECT max(d.stands) FROM account_day d WHERE d.account = "
       "account_sum.account); "
       "UPDATE turned_over SET amount = amount - 1000",
       Shows::in_the_head, ""},
      // A kind of row that is made to look as if entries had been sealed without it.
      {"UPDATE sealed_from SET entry = 100000 WHERE what = 'errand'; INSERT INTO errand VALUES (2, 'to the "
       "mill')",
       Shows::in_check, "entry 2: has a row in errand that no seal covers"},
      {"UPDATE sealed_from SET entry = 100000 WHERE what = 'place'; INSERT INTO place VALUES (3, 2, "
       "'corrects')",
       Shows::in_check, "entry 3: what is kept beside it is not what it says"},
      {"UPDATE sealed_from SET entry = 100000 WHERE what = 'unnamed'; INSERT INTO unnamed VALUES (3, 1)",
       Shows::in_check, "entry 3: what is kept beside it is not what it says"},
      // What says nothing: names that nothing uses, and the order in which postings stand.
      {"INSERT INTO vehicle VALUES ('nobody')", Shows::nowhere, ""},
      {"INSERT INTO account (kind, name) VALUES ('purse', 'nobody')", Shows::nowhere, ""},
      {"UPDATE posting SET seq = seq + 100 WHERE entry = 2", Shows::nowhere, ""},
      {"UPDATE clock SET since = '2025-06-30T11:00:00Z'", Shows::nowhere,
       ""},                                       // a clock that runs is not sealed
      {"DELETE FROM typed", Shows::nowhere, ""},  // what `undo` would offer
  };
  return all;
}

}  // namespace

TEST_CASE("each of the changes that another program can make is found, or changes nothing",
          "[book][tampered]") {
  Sealed shop;
  CHECK(tamperings().size() >= 44);
  for (const Tampering& each : tamperings()) {
    INFO(each.change);
    std::string opening;
    const std::vector<std::string> findings = shop.after(each.change, opening);
    INFO(fmt::format("{}", fmt::join(findings, "\n")));
    switch (each.shows) {
      case Shows::in_check:
        CHECK(opening.empty());
        CHECK(std::count(findings.begin(), findings.end(), each.finding) == 1);
        break;
      case Shows::in_the_head:
        CHECK(findings.empty());
        CHECK(shop.head_is_lost);
        break;
      case Shows::at_opening:
        CHECK(opening == shop.file().string() + each.finding);
        break;
      case Shows::nowhere:
        CHECK(opening.empty());
        CHECK(findings.empty());
        CHECK(shop.says_the_same);
        CHECK_FALSE(shop.head_is_lost);
        break;
    }
  }
}

// What would spoil a book is refused before it is in it, whatever brought it; what was spoilt by an older version, or
// behind the book's back, is named, keeps nobody from the rest, and is mended into a new book.
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "book/care/backup.h"
#include "book/care/export.h"
#include "book/care/heads.h"
#include "book/care/left_pages.h"
#include "book/care/mend.h"
#include "book/events/assigned.h"
#include "book/events/attach.h"
#include "book/events/clock.h"
#include "book/events/comparables.h"
#include "book/events/post.h"
#include "book/events/receipt.h"
#include "book/full_shop.h"
#include "book/ledger/query.h"
#include "book/ledger/settings.h"
#include "book/questions/journal.h"
#include "exact/ends.h"
#include "text/toml.h"
#include "words/days.h"

using namespace nonrunner;
using namespace nonrunner::book;
using Findings = std::vector<std::string>;
namespace fs = std::filesystem;

namespace {

std::string owner_in(const std::string& amount, const std::string& day = "2025-03-01") {
  return fmt::format("{{ do = \"owner in\", date = {}, purse = \"cash\", amount = {} }}", day, amount);
}

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// One car bought and one paper, the words of which another program replaced by bytes that are no text.
struct Spoilt : Shop {
  Spoilt() {
    post(owner_in("1000.00") +
         R"(, { do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" },
             { do = "receipt", date = 2025-03-03, supplier = "Cleave Yard", number = "1", paid = { cash = 3.00 }, total = 3.00, line = [
               { id = "bolt", what = "bolt", unit = 3.00, kind = "part", to = "pip" }] },
             { do = "finding", date = 2025-03-10, vehicle = "pip", text = "bracket bent" })");
    close();
    behind_its_back(
        file(),
        "DROP TRIGGER entry_keeps; UPDATE entry SET event = replace(event, 'Cleave', 'Caf' || CAST(x'e9' AS "
        "TEXT)) WHERE entry = 3; CREATE TRIGGER entry_keeps BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, "
        "'entries are never changed'); END;");
    reopen();
  }
};

}  // namespace

TEST_CASE("an amount that no shop has is asked about when it is entered, in every currency",
          "[book][spoilt]") {
  Shop shop;
  CHECK(
      shop.refusal(owner_in("4006381333931")) ==
      "owner in: found the amount 4,006,381,333,931.00, expected at most 1,000,000,000.00; is it a barcode?");
  CHECK(shop.refusal(owner_in("1000000000.00")) == "accepted");
  CHECK(Shop("JPY").refusal(owner_in("4006381333931")) ==
        "owner in: found the amount 4,006,381,333,931, expected at most 1,000,000,000; is it a barcode?");
  CHECK(
      Shop("KWD").refusal(owner_in("400638133393.1")) ==
      "owner in: found the amount 400,638,133,393.100, expected at most 1,000,000,000.000; is it a barcode?");
  shop.post(R"({ do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" })");
  CHECK(shop.refusal(
            R"({ do = "hours", date = 2025-03-05, vehicle = "pip", operation = "brakes", own = 10001 })") ==
        "hours: found 10001 hours, expected at most 10000; is it an amount of money?");
  CHECK(shop.refusal(
            R"({ do = "trip", date = 2025-03-05, vehicle = "pip", distance = 123456, why = "viewing" })") ==
        "trip: found 123456 miles or kilometres, expected at most 100000; is it the odometer?");
  CHECK(shop.refusal(owner_in("5", "0001-01-01")) ==
        "owner in: found the day 0001-01-01, expected one from 1886-01-01 to 2200-12-31");
}

TEST_CASE(
    "what a book turns over stays within what can be added up, and taking back is never refused for size",
    "[book][spoilt]") {
  Shop shop("CLF");  // four decimals: the range of money is reached soonest
  EntryId last = 0;
  for (int i = 0; i < 45; ++i) last = shop.post(owner_in("1000000000"));
  CHECK(shop.refusal(owner_in("1000000000")) ==
        "owner in: the book has turned over 90,000,000,000.0000 and cannot add up more than "
        "90,000,000,000.0000; void "
        "what is no amount of money, or begin a new book");
  CHECK(shop.purse("cash").plain(shop.book().currency()) == "45000000000.0000");
  CHECK(shop.health().findings == Findings{});
  shop.post(fmt::format("{{ do = \"void\", date = 2025-03-02, entry = {}, why = \"typed twice\" }}", last));
  CHECK(shop.refusal(owner_in("1000000000")) == "accepted");
  CHECK(shop.health().findings == Findings{});
}

TEST_CASE("the book itself refuses what cannot be added up, whoever writes it", "[book][spoilt]") {
  Shop shop;
  CHECK(
      shop.sql(
          "BEGIN IMMEDIATE; INSERT INTO account VALUES (91, 'purse', 'x'), (92, 'owner', 'x');"
          "INSERT INTO posting (entry, seq, account, amount) VALUES (1, 1, 91, 500000000000000), (1, 2, 92, "
          "-500000000000000);"
          "INSERT INTO entry VALUES (1, '2025-03-01', 'x', 1, '{}', NULL, '', zeroblob(32), zeroblob(32))") ==
      "the book holds more than can be added up");
}

TEST_CASE("a name that nobody can read is refused when it is recorded, wherever it came from",
          "[book][spoilt]") {
  Shop shop;
  bool entered_now = true;
  const auto named = [&](const std::string& what) {
    return shop.refusal_of([&](Recording& recording) {
      recording.wary = entered_now;
      Receipt receipt;
      receipt.day = on("2025-03-01");
      receipt.supplier = "Cleave Yard";
      receipt.on_paper = false;
      receipt.total = usd("3.00");
      receipt.paid = {{"cash", usd("3.00")}};
      ReceiptLine line;
      line.what = what;
      line.amount = usd("3.00");
      line.kind = "overhead";
      receipt.lines.push_back(line);
      record(recording, receipt);
    });
  };
  CHECK(named("bolt") == "accepted");
  CHECK(named("Caf\u00E9 sign") == "accepted");
  CHECK(named("Caf\xE9").find("is not UTF-8 text") != std::string::npos);
  CHECK(named("bolt\u202E") ==
        "receipt: \"bolt\uFFFD\" holds a character that nobody sees (U+202E), expected a name that can be "
        "read; type it "
        "anew");
  CHECK(named("bolt\u200B").find("(U+200B)") != std::string::npos);
  for (const char* shows_nothing : {"bolt\u3164", "\u2800", "bo\u115Flt", "bo\u034Flt"})
    CHECK(named(shows_nothing).find("holds a character that nobody sees") != std::string::npos);
  CHECK(named("sign \u2764\uFE0F") == "accepted");
  CHECK(named("\u845B\U000E0100 sign") == "accepted");  // a sign that chooses how the one before it is drawn
  CHECK(named(" \u00A0") ==
        "receipt: found a name of nothing but blanks, expected one that can be read; type it anew");
  // A book that is restored or mended is taken as it was.
  entered_now = false;
  CHECK(named("bolt\u3164") == "accepted");
  CHECK(named(" \u00A0") == "accepted");
  entered_now = true;
  CHECK(named("bo\x1b[2Jlt").find("(U+001B)") != std::string::npos);
  CHECK(named(std::string(20'000, 'x')).find("has 20000 bytes, expected a name of at most 10000") !=
        std::string::npos);
}

TEST_CASE("what lies beside the entries has names that can be read as well", "[book][spoilt]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" })");
  const auto refused = [&](const auto& act) {
    return shop.refusal_of(act).find("holds a character that nobody sees") != std::string::npos;
  };
  // A clock that runs for such a name could never be stopped.
  CHECK(refused([](Recording& recording) { start_clock(recording, "me", "pip", "brakes\tfront"); }));
  CHECK(refused([](Recording& recording) {
    recording.strict_words = true;
    assign(recording, {"pip", "", "", 1, "a\u202Eb"});
  }));
  CHECK(refused([](Recording& recording) {
    recording.strict_words = true;
    keep_comparable(recording, {0, "teal\x1b", usd("900"), true, Distance::parse("90000"), 2012,
                                Quantity::of(3000), on("2025-02-01"), ""});
  }));
}

TEST_CASE("a mended book says which entries were changed behind the program's back", "[book][spoilt]") {
  Spoilt shop;
  shop.close();
  behind_its_back(shop.file(),
                  "DROP TRIGGER entry_keeps; UPDATE entry SET event = replace(event, '300.00', '400.00') "
                  "WHERE entry = 2; "
                  "CREATE TRIGGER entry_keeps BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are "
                  "never changed'); END;");
  const Mended mended = mend(shop.file(), shop.folder() / "new.book", shop.now, shop.today);
  CHECK(std::count(mended.changes.begin(), mended.changes.end(),
                   "entry 2: was changed behind the program's back; it is taken as its event says now: look "
                   "at it") == 1);
}

TEST_CASE("check looks at what is shown: hours beyond the range, and notes of comparables",
          "[book][spoilt]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" },
               { do = "hours", date = 2025-03-03, vehicle = "pip", operation = "wash", own = 1 },
               { do = "hours", date = 2025-03-04, vehicle = "pip", operation = "wash", own = 1 })");
  shop.record([](Recording& recording) {
    keep_comparable(recording, {0, "teal", usd("900"), true, Distance::parse("90000"), 2012,
                                Quantity::of(3000), on("2025-02-01"), "by the church"});
  });
  shop.close();
  behind_its_back(
      shop.file(),
      "DROP TRIGGER labour_keeps; UPDATE labour SET own = 999999999999000; UPDATE worked SET own "
      "= 999999999999000; "
      "UPDATE comparable SET note = CAST(x'63E9' AS TEXT); CREATE TRIGGER labour_keeps BEFORE UPDATE ON "
      "labour BEGIN SELECT RAISE(ABORT, 'details of an entry are never changed'); END;");
  shop.reopen();
  const Findings findings = shop.health().findings;
  const auto says = [&](const std::string& beginning) {
    return std::any_of(findings.begin(), findings.end(),
                       [&](const std::string& each) { return each.starts_with(beginning); });
  };
  CHECK(says("pip: cannot be shown: "));
  CHECK(says("comparable 1: "));
}

TEST_CASE("one entry that is no text keeps nobody from the others, and check names it", "[book][spoilt]") {
  Spoilt shop;
  const auto rows = journal(shop.book(), "");
  const Findings findings = shop.health().findings;
  CHECK(std::count(findings.begin(), findings.end(),
                   "entry 3: cannot be shown: byte 53 of its event is not UTF-8; to be mended") == 1);
  CHECK(rows.size() == 4);
  CHECK(shop.show("pip").cost == usd("303.00"));
  const Exported exported = export_to(shop.book(), shop.folder() / "out", false, shop.today);
  CHECK(exported.changes == Findings{"entry 3: what is not UTF-8 in it was replaced"});
  CHECK_NOTHROW(parse_toml(bytes_of(shop.folder() / "out/events.toml"), "events.toml"));
}

TEST_CASE("a spoilt book is mended into a new one that says what was changed", "[book][spoilt]") {
  Spoilt shop;
  shop.record([](Recording& recording) {
    set(recording, "hour", "20");
    keep_comparable(recording, {0, "teal", usd("900"), true, Distance::parse("90000"), 2012,
                                Quantity::of(3000), on("2025-02-01"), "by the church"});
  });
  shop.close();
  const std::string before = bytes_of(shop.file());
  const Mended mended = mend(shop.file(), shop.folder() / "new.book", shop.now, shop.today);
  CHECK(mended.of == 4);
  CHECK(mended.entries == 4);
  CHECK(mended.changes == Findings{"entry 3: was changed behind the program's back; it is taken as its event "
                                   "says now: look at it",
                                   "entry 3: what was not text, or could not be seen, was replaced"});
  CHECK(bytes_of(shop.file()) == before);
  CHECK_FALSE(fs::exists(shop.folder() / "new.book.old.arriving"));
  const Book book = Book::open(shop.folder() / "new.book");
  CHECK(check(book).findings == Findings{});
  CHECK(hour(book) == usd("20"));
  CHECK(all_comparables(book).size() == 1);
  CHECK(balance_of(book, account::purse, "cash").amount == usd("697.00"));
}

TEST_CASE("of a file that was cut off what can be read is mended, and the file that was read is named",
          "[book][spoilt]") {
  Shop shop;
  std::string events = owner_in("1000.00");
  for (int i = 0; i < 600; ++i)
    events += fmt::format(
        R"(, {{ do = "finding", date = 2025-03-10, vehicle = "pip", text = "note {:>200}" }})", i);
  shop.post(events);
  shop.close();
  const std::string whole = bytes_of(shop.file());
  const auto mended_of = [&](std::size_t size, Mended& mended) {
    const fs::path cut = shop.folder() / "cut.book", made = shop.folder() / "made.book";
    fs::remove(made);
    std::ofstream(cut, std::ios::binary).write(whole.data(), static_cast<std::streamsize>(size));
    return Shop::said([&] { mended = mend(cut, made, shop.now, shop.today); });
  };
  Mended mended;
  REQUIRE(mended_of(whole.size() * 8 / 10, mended) == "accepted");
  CHECK(mended.changes.front() == fmt::format("the file ends after {} of {} bytes: what lay behind is gone",
                                              whole.size() * 8 / 10, whole.size()));
  CHECK(mended.entries > 100);
  CHECK(mended.entries < 601);
  CHECK(check(Book::open(shop.folder() / "made.book")).findings == Findings{});
  CHECK_THAT(mended_of(5'000, mended),
             Catch::Matchers::StartsWith((shop.folder() / "cut.book").string() + ": "));
  CHECK_FALSE(fs::exists(shop.folder() / "made.book"));
}

TEST_CASE("where not even the layout can be read any more, entries are found page by page",
          "[book][spoilt]") {
  Shop shop("EUR");
  std::string events = owner_in("1000.00");
  for (int i = 0; i < 60; ++i)  // the longest of them goes on over further pages
    events +=
        fmt::format(R"(, {{ do = "finding", date = 2025-03-10, vehicle = "pip", text = "note {} {}" }})", i,
                    std::string(static_cast<std::size_t>(i) * 120, 'x'));
  shop.post(events);
  shop.post(R"({ do = "void", date = 2025-03-11, entry = 2, why = "not this car" })");
  shop.record([](Recording& recording) { set(recording, "hour", "20"); });
  const LeftRows rows = rows_left(shop.file());
  REQUIRE(rows.entries.size() == 62);
  for (const auto& [id, each] : rows.entries) {
    const Entry entry = load_entry(shop.book(), id);
    CHECK(each.event == entry.event);
    CHECK(each.day == entry.day.iso());
    CHECK(each.kind == entry.kind);
    CHECK(each.voids == entry.voids);
  }
  CHECK(rows.settings.at("currency") == "EUR");
  CHECK(rows.settings.at("hour") == "20.00");
  shop.close();
  // A page of the layout is gone, and one with entries: their numbers are told.
  std::string bytes = bytes_of(shop.file());
  const SQLite::Database whole(shop.file(), SQLite::OPEN_READONLY);
  const auto page = [&](const char* of, int place) {
    SQLite::Statement query(
        whole,
        "SELECT pageno FROM dbstat WHERE name = ? AND pagetype = 'leaf' ORDER BY pageno LIMIT 1 OFFSET ?");
    query.bind(1, of);
    query.bind(2, place);
    REQUIRE(query.executeStep());
    return static_cast<std::size_t>(query.getColumn(0).getInt());
  };
  for (const std::size_t gone : {page("sqlite_schema", 2), page("entry", 1)})
    std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>((gone - 1) * 4096), 4096, '\0');
  const fs::path torn = shop.folder() / "torn.book", made = shop.folder() / "made.book";
  std::ofstream(torn, std::ios::binary) << bytes;
  const Mended mended = mend(torn, made, shop.now, shop.today);
  INFO(fmt::format("{}", fmt::join(mended.changes, "\n")));
  CHECK(mended.of == 62);
  CHECK(mended.entries > 30);
  CHECK(mended.entries < 62);
  CHECK(std::any_of(mended.changes.begin(), mended.changes.end(), [](const std::string& each) {
    return each.starts_with("entries ") && each.find(": could not be read") != std::string::npos;
  }));
  const Book book = Book::open(made);
  CHECK(check(book).findings == Findings{});
  CHECK(book.currency().code == "EUR");
  CHECK(hour(book) == Money::parse("20", book.currency()));
}

TEST_CASE("what is refused now is left out of a mended book with its reason, and so is what takes it back",
          "[book][spoilt]") {
  Shop shop;
  shop.post(owner_in("5.00") + ", " + owner_in("6.00", "2025-03-02") + ", " + owner_in("7.00", "2025-03-03"));
  shop.post(R"({ do = "void", date = 2025-03-04, entry = 2, why = "a barcode" })");
  shop.post(R"({ do = "void", date = 2025-03-04, entry = 3, why = "not mine" })");
  shop.close();
  behind_its_back(
      shop.file(),
      "DROP TRIGGER entry_keeps; UPDATE entry SET event = replace(event, '6.00', '4006381333931.00') WHERE "
      "entry = 2");
  const Mended mended = mend(shop.file(), shop.folder() / "new.book", shop.now, shop.today);
  CHECK(mended.changes ==
        Findings{"layout: the trigger entry_keeps is missing",
                 "entry 2: left out: owner in: found the amount 4,006,381,333,931.00, expected at most "
                 "1,000,000,000.00; is it a barcode?",
                 "entry 4: left out: it names entry 2, which is not there"});
  const Book book = Book::open(shop.folder() / "new.book");
  CHECK(check(book).findings == Findings{});
  CHECK(last_entry(book) == 3);
  CHECK(balance_of(book, account::purse, "cash").amount == usd("5.00"));
}

TEST_CASE("a layout that is not ours is found whatever it is called, and nothing is written over it",
          "[book][spoilt]") {
  for (const char* name : {"sqlitex_q", "sqlite1", "\"SQLITE-x\"", "more"}) {
    Shop shop;
    shop.post(owner_in("5"));
    shop.close();
    behind_its_back(
        shop.file(),
        fmt::format("CREATE TRIGGER {} BEFORE INSERT ON setting BEGIN SELECT RAISE(IGNORE); END", name));
    shop.reopen();
    const std::string bare = std::string(name).front() == '"' ? "SQLITE-x" : name;
    CHECK(shop.health().findings ==
          Findings{"layout: there is a trigger " + bare + " that this program does not make"});
    CHECK(Shop::said([&] {
            shop.post(owner_in("6"));
          }).find("the layout of the book is not ours: there is a trigger " + bare) != std::string::npos);
  }
  Shop shop;
  shop.close();
  behind_its_back(shop.file(),
                  "PRAGMA writable_schema = ON; INSERT INTO sqlite_schema VALUES ('trigger', 'sqlite_evil', "
                  "'setting', 0, "
                  "'CREATE TRIGGER sqlite_evil BEFORE INSERT ON setting BEGIN SELECT RAISE(IGNORE); END')");
  shop.reopen();
  CHECK(shop.health().findings ==
        Findings{"layout: there is a trigger sqlite_evil that this program does not make"});
}

TEST_CASE("what lies on the desk is not changed behind the book's back unseen", "[book][spoilt]") {
  Shop shop;
  shop.post(owner_in("1000.00") +
            R"(, { do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" })");
  shop.record([](Recording& recording) {
    set(recording, "hour", "20");
    set(recording, "purse.visa", "liability");
    keep_comparable(recording, {0, "teal", usd("900"), true, Distance::parse("90000"), 2012,
                                Quantity::of(3000), on("2025-02-01"), "by the church"});
    keep_appraisal(recording, "pip", on("2025-03-01"), 0, {"tag = \"pip\"", "", "{}"});
  });
  shop.post(R"({ do = "under", vehicle = "pip", entry = 2, heading = "purchase" }, )" + owner_in("5"));
  CHECK(shop.health().findings == Findings{});
  shop.close();
  const std::string pristine = bytes_of(shop.file());
  const std::string behind = " behind the program's back";
  const auto [change, found] = GENERATE_COPY(table<std::string, std::string>({
      {"UPDATE setting SET value = '77' WHERE name = 'hour'", "setting hour: was changed" + behind},
      {"DELETE FROM setting WHERE name = 'hour'", "setting hour: was taken away" + behind},
      {"INSERT INTO setting VALUES ('dealer-limit', '9')", "setting dealer-limit: was added" + behind},
      {"UPDATE setting SET value = 'asset' WHERE name = 'purse.visa'",
       "setting purse.visa: was changed" + behind},
      {"DROP TRIGGER shop_keeps; UPDATE setting SET value = 'EUR' WHERE name = 'currency'",
       "setting currency: was changed" + behind},
      {"DROP TRIGGER shop_keeps; UPDATE setting SET value = 'km' WHERE name = 'distance'",
       "setting distance: was changed" + behind},
      {"UPDATE comparable SET price = 1", "comparable 1: was changed" + behind},
      {"DELETE FROM comparable", "comparable 1: was taken away" + behind},
      {"DROP TRIGGER appraisal_keeps; UPDATE appraisal SET job = 'x'", "appraisal 1: was changed" + behind},
      {"DROP TRIGGER appraisal_keeps; UPDATE appraisal SET figures = '{ }'",
       "appraisal 1: was changed" + behind},
      {"DROP TRIGGER appraisal_keeps_its_purchase; UPDATE appraisal SET entry = 2",
       "appraisal 1: was changed" + behind},
      {"DROP TRIGGER appraisal_stays; DELETE FROM appraisal", "appraisal 1: was taken away" + behind},
      {"UPDATE assigned SET heading = 'parts'", "heading pip entry 2: was changed" + behind},
      {"INSERT INTO taken_in VALUES ('aa', 'l.csv', '2025-01-01')", "file aa: was added" + behind},
  }));
  INFO(change);
  behind_its_back(shop.file(), change);
  shop.reopen();
  const Findings findings = shop.health().findings;
  CHECK(std::count(findings.begin(), findings.end(), found) == 1);
}

TEST_CASE("a note taken out of the chain, or written anew, is found by the notes and the entries after it",
          "[book][spoilt]") {
  Shop shop;
  shop.record([](Recording& recording) { set(recording, "hour", "20"); });
  shop.post(owner_in("5"));
  shop.record([](Recording& recording) { set(recording, "hour", "30"); });
  CHECK(shop.health().findings == Findings{});
  shop.close();
  behind_its_back(shop.file(),
                  "DROP TRIGGER desk_note_keeps; UPDATE desk_note SET value = '21' WHERE note = 3");
  shop.reopen();
  const Findings findings = shop.health().findings;
  CHECK(std::count(
            findings.begin(), findings.end(),
            "note 3 (setting hour): it, or what stood before it, was changed behind the program's back") ==
        1);
  shop.close();
  behind_its_back(shop.file(), "DROP TRIGGER desk_note_stays; DELETE FROM desk_note");
  shop.reopen();
  const Findings gone = shop.health().findings;
  CHECK(std::count(gone.begin(), gone.end(), "note 3: is not the one that entry 1 names") == 1);
}

TEST_CASE("a book without its currency is refused", "[book][spoilt]") {
  Shop shop;
  shop.close();
  behind_its_back(shop.file(), "DROP TRIGGER shop_stays; DELETE FROM setting WHERE name = 'currency'");
  CHECK(Shop::said([&] { shop.reopen(); }) == shop.file().string() +
                                                  ": the file is damaged: the currency of the book cannot be "
                                                  "read: there is none; bring back the last backup "
                                                  "or export with: nonrunner restore FROM --book NEW");
}

TEST_CASE(
    "of a day the last head is remembered, however many there were, and a line cut short is passed over",
    "[book][spoilt]") {
  Shop shop;
  const fs::path heads = shop.folder() / "heads";
  std::uintmax_t most = 0;
  for (int i = 0; i < 120; ++i) {
    shop.post(owner_in(std::to_string(i + 1)));
    remember_head(shop.book(), heads, shop.today, false);
    CHECK(heads_seen(shop.book(), heads).size() == 1);
    CHECK(heads_seen(shop.book(), heads).back().entry == i + 1);
    for (const auto& file : fs::directory_iterator(heads)) most = std::max(most, fs::file_size(file));
  }
  CHECK(most > 4096);
  CHECK(most < 4096 + 400);
  remember_head(shop.book(), heads, shop.today.plus(1), false);
  CHECK(heads_seen(shop.book(), heads).size() == 1);  // nothing new was entered
  shop.post(owner_in("200"));
  remember_head(shop.book(), heads, shop.today.plus(1), false);
  CHECK(heads_seen(shop.book(), heads).size() == 2);
  const fs::path file = fs::directory_iterator(heads)->path();
  std::ofstream(file, std::ios::app) << "+2026-05-02 122 0123456789abcdef";
  CHECK(heads_seen(shop.book(), heads).size() == 2);
  CHECK(heads_seen(shop.book(), heads).back().entry == 121);
  // What comes after it begins a line of its own.
  shop.post(owner_in("201"));
  remember_head(shop.book(), heads, shop.today.plus(1), false);
  CHECK(heads_seen(shop.book(), heads).back().entry == 122);
}

TEST_CASE("a process that stays sees what another one wrote to the heads meanwhile", "[book][spoilt]") {
  Shop shop;
  const fs::path heads = shop.folder() / "heads";
  HeadsAsLeft left;
  const auto enters = [&](const char* amount, Day day, HeadsAsLeft* as_left) {
    shop.post(owner_in(amount));
    remember_head(shop.book(), heads, day, true, as_left);
    return heads_seen(shop.book(), heads);
  };
  CHECK(enters("1", shop.today, &left).size() == 1);
  CHECK(enters("2", shop.today, &left).size() == 1);
  CHECK(enters("3", shop.today.plus(1), nullptr).size() == 2);  // another one, on the next day
  const auto after = enters("4", shop.today.plus(1), &left);
  CHECK(after.size() == 2);
  CHECK(after.back().entry == 4);
  fs::remove_all(heads);
  CHECK(enters("5", shop.today.plus(2), &left).size() == 1);
  CHECK(enters("6", shop.today.plus(2), &left).back().entry == 6);
}

TEST_CASE("an older copy put in the book's place is noticed, and a seal of earlier is found or missed",
          "[book][spoilt]") {
  Shop shop;
  const fs::path heads = shop.folder() / "heads";
  shop.post(owner_in("5"));
  shop.close();
  const std::string older = bytes_of(shop.file());
  shop.reopen();
  shop.post(owner_in("6"));
  remember_head(shop.book(), heads, shop.today, false);
  const Head head = head_of(shop.book(), shop.today);
  CHECK(head.entry == 2);
  CHECK_FALSE(lost_head(shop.book(), heads));
  CHECK(entry_with_seal(shop.book(), head.seal) == EntryId{2});
  CHECK(entry_with_seal(shop.book(), head.seal.substr(0, 12)) == EntryId{2});
  shop.close();
  std::ofstream(shop.file(), std::ios::binary | std::ios::trunc) << older;
  shop.reopen();
  CHECK(lost_head(shop.book(), heads)->seal == head.seal);
  CHECK_FALSE(entry_with_seal(shop.book(), head.seal));
  remember_head(shop.book(), heads, shop.today, false);  // what was seen is not forgotten by looking
  CHECK(lost_head(shop.book(), heads).has_value());
  // Remembered all the same, it stands beside the one that was lost, which is still told of.
  shop.post(owner_in("7"));
  remember_head(shop.book(), heads, shop.today, true);
  CHECK(heads_seen(shop.book(), heads).size() == 2);
  CHECK(heads_seen(shop.book(), heads).front().seal == head.seal);
  CHECK_FALSE(lost_head(shop.book(), heads));
  CHECK(
      Shop::said([&] { entry_with_seal(shop.book(), "12ab"); }) ==
      "check: found the seal \"12ab\", expected its 64 hexadecimal digits, or the first 12 of them at least");
}

TEST_CASE("looking at a backup changes nothing in it", "[book][spoilt]") {
  FullShop shop;
  const fs::path copy = shop.folder() / "copy.book";
  backup(shop.book(), copy);
  const std::string before = bytes_of(copy);
  {
    const Book book = Book::open(copy);
    CHECK(check(book).findings == Findings{});
  }
  CHECK(bytes_of(copy) == before);
  CHECK_FALSE(fs::exists(copy.string() + "-wal"));
}

TEST_CASE("an attachment that is refused leaves nothing beside the book", "[book][spoilt]") {
  FullShop shop;
  const auto files = [&] {
    return std::distance(fs::directory_iterator(shop.book().attachments()), fs::directory_iterator());
  };
  std::ofstream(shop.folder() / "second.jpg") << "another photograph";
  CHECK(files() == 1);
  CHECK(shop.refusal_of([&](Recording& recording) {
    record(recording, Attach{on("2025-03-09"), "pip", shop.folder() / "second.jpg", "", ""});
    throw Refusal("for another reason");
  }) == "for another reason");
  CHECK(files() == 1);
  std::ofstream(shop.book().attachments() / "arriving-1") << "left by a killed process";
  shop.record([&](Recording& recording) {
    record(recording, Attach{on("2025-03-09"), "pip", shop.folder() / "second.jpg", "", ""});
  });
  CHECK(files() == 2);
  CHECK(shop.refusal_of([&](Recording& recording) {
    record(recording, Attach{on("2025-03-09"), "pip", shop.folder() / "second.jpg", "a\u202Eb.jpg", ""});
  }) == "attach: found the name \"a\uFFFD"
        "b.jpg\", expected 1 to 120 characters that can be seen");
}

TEST_CASE("a file of events takes nothing from outside of its folder", "[book][spoilt]") {
  FullShop shop;
  fs::create_directories(shop.folder() / "in");
  std::ofstream(shop.folder() / "secret") << "not theirs";
  fs::create_directory_symlink(shop.folder(), shop.folder() / "in/way");
  const auto attach = [&](const std::string& file) {
    return shop.refusal_of([&](Recording& recording) {
      post(recording,
           "event = [{ do = \"attach\", date = 2025-03-09, vehicle = \"pip\", file = \"" + file + "\" }]",
           "e.toml", shop.folder() / "in", {});
    });
  };
  for (const std::string& file :
       {std::string("../secret"), std::string("way/secret"), std::string("/etc/passwd")})
    CHECK(attach(file) == "e.toml:1: \"" + file + "\": found a file outside of the folder " +
                              fs::canonical(shop.folder() / "in").string() +
                              ", expected one below it; copy it there if you mean it");
}

TEST_CASE("a name beside the book that no file has is told of, and no book is made under a wish to SQLite",
          "[book][spoilt]") {
  Shop shop;
  shop.close();
  fs::create_directory(shop.file().string() + "-journal");
  CHECK(
      Shop::said([&] { shop.reopen(); }) ==
      shop.file().string() +
          "-journal: found something that is no ordinary file beside the book, expected none; take it away");
  fs::remove(shop.file().string() + "-journal");
  CHECK(sqlite_name(":memory:") == "./:memory:");
  CHECK(sqlite_name("file:x?mode=ro") == "./file:x?mode=ro");
  CHECK(Shop::said([&] { Book::create(shop.folder() / std::string(240, 'x'), Currency{}, "mi"); }) ==
        (shop.folder() / std::string(240, 'x')).string() +
            ": the name has 240 bytes, expected at most 230; choose a shorter one");
  for (const char* wish : {":memory:", "file:x", "file:x?mode=memory"}) {
    const fs::path place = shop.folder() / wish;
    INFO(place);
    CHECK(Shop::said([&] { Book::create(place, Currency{}, "mi"); }) ==
          place.string() +
              ": found a name that is none of a file to other programs for databases, expected the name of a "
              "file, "
              "such as shop.book; choose another one");
    CHECK_FALSE(fs::exists(place));
  }
}

namespace {

// A book of notes of 9,000 characters, exported as events and made a book again.
void comes_back(int notes) {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" })");
  const std::string note(9'000, 'n');
  shop.record([&](Recording& recording) {
    for (int i = 0; i < notes; ++i)
      post(recording,
           fmt::format(
               "event = [{{ do = \"finding\", date = 2025-03-02, vehicle = \"pip\", text = \"{} {}\" }}]", i,
               note),
           "e.toml", shop.folder(), {});
  });
  export_to(shop.book(), shop.folder() / "out", true, shop.today);
  CHECK(fs::exists(shop.folder() / "out/events-0002.toml"));
  Shop again;
  again.record([&](Recording& recording) {
    post(recording, read_file((shop.folder() / "out/events.toml").string(), any_size), "events.toml",
         shop.folder() / "out", {});
  });
  CHECK(last_entry(again.book()) == notes + 1);
  CHECK(again.health().findings == Findings{});
}

}  // namespace

TEST_CASE("an export beyond what a reader takes at once is made a book again", "[book][spoilt]") {
  comes_back(300);
}
TEST_CASE("an export of 65 MiB is made a book again", "[book][spoilt][slow]") { comes_back(7'600); }

TEST_CASE("a clock is not believed where the machine's clock was set back, or somebody changed its beginning",
          "[book][spoilt]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" })");
  shop.record([](Recording& recording) { start_clock(recording, "me", "pip", "brakes"); });
  const auto stop = [&](std::optional<Hours> hours) {
    return shop.refusal_of([&](Recording& recording) { stop_clock(recording, "me", shop.today, hours); });
  };
  shop.now = "2025-06-30T11:59:59Z";
  CHECK(stop({}) ==
        "clock off: the clock on pip (\"brakes\") has no beginning that lies before now: was the machine's "
        "clock set "
        "back? say how long it really was: nonrunner clock off --hours N; it runs since " +
            words::shown_time("2025-06-30T12:00:00Z") + ", and it is " + words::shown_time(shop.now));
  CHECK(stop(Hours::parse("2")) == "accepted");
  shop.now = "2025-06-30T13:00:00Z";
  CHECK(stop({}) == "accepted");
  shop.close();
  behind_its_back(shop.file(), "UPDATE clock SET since = 'noon'");
  shop.reopen();
  CHECK(stop({}).find("; it runs since noon, and it is ") != std::string::npos);
  CHECK(stop(Hours::parse("2")) == "accepted");
}

TEST_CASE("a purse that only looks like a known one is asked about", "[book][spoilt]") {
  Shop shop;
  shop.post(owner_in("5"));
  const auto typed = [&](const std::string& purse) {
    return shop.refusal_of([&](Recording& recording) {
      recording.strict_words = true;
      post(recording,
           "event = [{ do = \"owner in\", date = 2025-03-01, purse = \"" + purse + "\", amount = 5 }]",
           "e.toml", shop.folder(), {});
    });
  };
  CHECK(typed("cash") == "accepted");
  for (const char* purse : {"c\u0430sh", "\uFF43ash", "Cash"})
    CHECK(typed(purse).find("there is no purse \"" + std::string(purse) + "\", did you mean \"cash\"?") !=
          std::string::npos);
}

TEST_CASE(
    "of the log beside a book pages of an earlier log do not count, nor those of a write that never ended",
    "[book][spoilt]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 100.00, purse = "cash" })");
  const auto live = shop.book().path();
  const std::string bytes = bytes_of(live), log = bytes_of(live.string() + "-wal");
  REQUIRE(log.size() > 32 + 24);
  const auto entries_with = [&](const std::string& some_log) {
    const auto copy = shop.folder() / "copy.book";
    std::ofstream(copy, std::ios::binary) << bytes;
    std::ofstream(copy.string() + "-wal", std::ios::binary) << some_log;
    return rows_left(copy).entries.size();
  };
  REQUIRE(entries_with(log) == 1);
  std::string of_another = log;
  of_another[32 + 8] = static_cast<char>(of_another[32 + 8] + 1);  // the salt of its first page
  CHECK(entries_with(of_another) == 0);
  std::string not_ended = log;
  const std::size_t page = 4096, frame = 24 + page;
  for (std::size_t at = 32; at + frame <= log.size(); at += frame) not_ended.replace(at + 4, 4, 4, '\0');
  CHECK(entries_with(not_ended) == 0);
}

TEST_CASE("check names what cannot be entered again, and mend makes a name of several lines one line",
          "[book][spoilt]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-02, vehicle = "pip", price = 300.00, purse = "cash" },
               { do = "hours", date = 2025-03-03, vehicle = "pip", operation = "wash", own = 1 },
               { do = "finding", date = 2025-03-03, vehicle = "pip", text = "wet\nbelow the pump" })");
  shop.record([](Recording& recording) { assign(recording, {"pip", "", "wash", 0, "readying"}); });
  shop.close();
  behind_its_back(
      shop.file(),
      "DROP TRIGGER labour_keeps; UPDATE labour SET operation = 'wa' || char(10) || 'sh'; CREATE TRIGGER "
      "labour_keeps BEFORE UPDATE ON labour BEGIN SELECT RAISE(ABORT, 'details of an entry are never "
      "changed'); END; DROP TRIGGER entry_keeps; UPDATE entry SET event = replace(event, 'wash', 'wa\\nsh'); "
      "CREATE TRIGGER entry_keeps BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never "
      "changed'); END; UPDATE assigned SET heading = 'rea' || char(10) || 'dying'");
  shop.reopen();
  const Findings findings = shop.health().findings;
  CHECK(std::count(findings.begin(), findings.end(),
                   "entry 2: cannot be entered again: hours: \"wa sh\" holds a character that nobody sees "
                   "(U+000A), expected a name that can be read; type it anew; to be mended") == 1);
  CHECK(std::count(findings.begin(), findings.end(),
                   "heading of operation wash of pip: \"rea dying\" holds what nobody sees; to be mended") ==
        1);
  shop.close();
  mend(shop.file(), shop.folder() / "new.book", shop.now, shop.today);
  const Book book = Book::open(shop.folder() / "new.book");
  CHECK(check(book).findings == Findings{});
  REQUIRE(last_entry(book) == 3);
  CHECK(load_entry(book, 2).event.find("operation = \"wa sh\"") != std::string::npos);
  CHECK(first<std::string>(book, "SELECT text FROM noted", {}) == "wet\nbelow the pump");
  CHECK(assigned(book, "pip") == std::map<std::string, std::string>{{"operation wash", "rea dying"}});
}

// Whose place an entry takes: a row of its own, whatever words stand in an event.
#include <fmt/format.h>

#include <fstream>
#include <iterator>

#include "book/care/export.h"
#include "book/care/restore.h"
#include "book/events/correct.h"
#include "book/fixture.h"
#include "book/ledger/query.h"
#include "book/questions/entry_now.h"
#include "book/questions/lately.h"

using namespace nonrunner;
using namespace nonrunner::book;
namespace fs = std::filesystem;

namespace {

std::string quick(const std::string& what, const std::string& amount) {
  return "{ do = \"receipt\", date = 2025-06-05, paid = \"cash\", total = " + amount +
         ", itemised = false, line = [{ what = \"" + what + "\", amount = " + amount +
         ", kind = \"part\", to = \"pip\" }] }";
}
std::string paper(const std::string& number, const std::string& what, const std::string& more = "") {
  return "{ do = \"receipt\", date = 2025-06-06, supplier = \"Harrow\", number = \"" + number +
         "\", paid = \"cash\", total = 10.00" + more + ", line = [{ what = \"" + what +
         "\", amount = 10.00, kind = \"part\", to = \"pip\" }] }";
}
std::string taken_back(EntryId entry, const std::string& why, const std::string& more = "") {
  return fmt::format("{{ do = \"void\", date = 2025-06-06, entry = {}, why = \"{}\"{} }}", entry, why, more);
}

// "5 replaces 3" ...
std::vector<std::string> places_in(const Book& book) {
  std::vector<std::string> all;
  each<EntryId, std::string, EntryId>(book, "SELECT entry, how, takes FROM place ORDER BY entry, how", {},
                                      [&](EntryId entry, const std::string& how, EntryId takes) {
                                        all.push_back(fmt::format("{} {} {}", entry, how, takes));
                                      });
  return all;
}

// A book as the version before left it: entries 1 to 21, of which 5 is the paper of the quick line 3, 8 puts right 6 and 19,
// over the end of a period, 8; 13 is the paper of 9 and of 10, 16 was entered for 14 when no event said so yet; 20 is a line
// without a name, 21 one of a page that said it by what it is called. Words like "replaces = 2" stand in 5 and 14.
void make_book_of_layout_25(const fs::path& file) {
  Book::create_old(file, 25);
  SQLite::Database old(file.string(), SQLite::OPEN_READWRITE);
  const auto listed = [&](const std::string& sql) {
    std::vector<std::string> all;
    SQLite::Statement rows(old, sql);
    while (rows.executeStep()) all.push_back(rows.getColumn(0).getString());
    return all;
  };
  const auto made = listed("SELECT sql FROM sqlite_schema WHERE type = 'trigger'");
  for (const std::string& name : listed("SELECT name FROM sqlite_schema WHERE type = 'trigger'"))
    old.exec("DROP TRIGGER " + name);
  for (const std::string& name : listed("SELECT name FROM sqlite_schema WHERE type = 'table'"))
    if (!name.starts_with("sqlite_")) old.exec("DELETE FROM " + name);
  std::ifstream in(NONRUNNER_SOURCE "/tests/book/places_book.sql");
  old.exec(std::string{std::istreambuf_iterator<char>(in), {}});
  for (const std::string& sql : made) old.exec(sql);
}

}  // namespace

TEST_CASE("whose place an entry takes is recorded with it", "[book]") {
  Shop shop;
  const EntryId line = shop.post(quick("hose", "9.00"));
  const EntryId full = shop.post(paper("7", "hose", ", replaces = " + std::to_string(line)));
  CHECK(places_in(shop.book()) == std::vector<std::string>{fmt::format("{} replaces {}", full, line)});
  EntryId right = 0;
  shop.record([&](Recording& recording) {
    Correction correction;
    correction.entry = full;
    correction.amount = "11";
    right = correct(recording, correction).entry;
  });
  CHECK(places_in(shop.book()) == std::vector<std::string>{fmt::format("{} replaces {}", full, line),
                                                           fmt::format("{} makes way {}", right - 1, full),
                                                           fmt::format("{} corrects {}", right, full)});
  CHECK(as_it_counts_now(shop.book(), line) == right);
  CHECK(shop.health().sound);
}

TEST_CASE("of several quick lines of a paper each has it in its place", "[book]") {
  Shop shop;
  shop.post(quick("hose", "4.00") + ", " + quick("clip", "6.00"));
  shop.post(taken_back(2, "replaced by the full paper", ", makes_way = true") + ", " +
            paper("7", "hose and clip", ", replaces = 1"));
  CHECK(places_in(shop.book()) == std::vector<std::string>{"3 gives place 2", "5 replaces 1"});
  CHECK(as_it_counts_now(shop.book(), 1) == 5);
  CHECK(as_it_counts_now(shop.book(), 2) == 5);
  // What is undone makes way as well, and nothing takes its place.
  shop.post(taken_back(5, "undone", ", makes_way = true") + ", " + paper("8", "lamp"));
  CHECK(places_in(shop.book()).size() == 2);
  CHECK(as_it_counts_now(shop.book(), 5) == 5);
}

TEST_CASE("words of a paper that look like a key take no place", "[book]") {
  Shop shop;
  const EntryId line = shop.post(quick("hose", "9.00"));
  // In one recording, as several quick lines and their paper are.
  shop.post(taken_back(line, "typed twice") + ", " + paper("7", "hose, replaces = " + std::to_string(line)));
  CHECK(as_it_counts_now(shop.book(), line) == line);
  CHECK(shop.refusal_of([&](Recording& recording) {
    Correction correction;
    correction.entry = line;
    correction.amount = "8";
    correct(recording, correction);
  }) == fmt::format("correct: entry {} was taken back already, by entry {}; see: nonrunner entries", line,
                    line + 1));
}

TEST_CASE("a quick line typed twice has no paper, also where one comes later in the same recording",
          "[book]") {
  Shop shop;
  // So a book is restored: all in one.
  shop.post(quick("hose", "9.00") + ", " + quick("clip", "8.00") + ", " + taken_back(1, "typed twice") +
            ", " + quick("bolt", "3.00") + ", " + paper("7", "clip", ", replaces = 2"));
  CHECK(as_it_counts_now(shop.book(), 1) == 1);
  CHECK(as_it_counts_now(shop.book(), 2) == last_entry(shop.book()));
}

TEST_CASE("a book of before is filled from its events, and its seals stay", "[book]") {
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  make_book_of_layout_25(file);
  const Book book = Book::open(file);
  CHECK(places_in(book) == std::vector<std::string>{"5 replaces 3", "7 makes way 6", "8 corrects 6",
                                                    "13 replaces 9", "15 makes way 14", "18 makes way 8",
                                                    "19 corrects 8"});
  for (const auto& [entry, now] :
       std::vector<std::pair<EntryId, EntryId>>{{3, 5}, {6, 19}, {9, 13}, {10, 13}, {14, 16}, {2, 2}}) {
    INFO(entry);
    CHECK(as_it_counts_now(book, entry) == now);
  }
  CHECK(is_unnamed(book, 20));
  CHECK(is_unnamed(book, 21));
  CHECK_FALSE(is_unnamed(book, 13));
  CHECK(bought_lately(book) == std::vector<std::string>{"clip and bolt", "hose, replaces = 2, corrects = 2"});
  const Health health = check(book);
  CHECK(health.findings.empty());
  CHECK(health.head == "f3c24bda8cfda613aabe93c880a35bec70c575d2790dbabdadaafa64b77ce0d7");
  // Entered anew it has the same rows from its first entry on.
  const RestoreWith with{
      "2026-11-26T12:00:00Z", Day(2026, 11, 26), [](const Book&) { return Appraise(); }, {}};
  CHECK(export_to(book, folder.path() / "out", true, Day(2026, 11, 26), {}, &with).apart ==
        std::vector<std::string>{});
}

TEST_CASE("what was filled from older events and changed since is found", "[book]") {
  struct Tampered {
    const char *what, *sql, *found;
  };
  const auto tampered =
      GENERATE(Tampered{"another place", "UPDATE place SET takes = 2 WHERE entry = 5", "entry 5"},
               Tampered{"a place away", "DELETE FROM place WHERE entry = 19", "entry 19"},
               Tampered{"a place more", "INSERT INTO place VALUES (13, 10, 'corrects')", "entry 13"},
               Tampered{"a name", "DELETE FROM unnamed WHERE entry = 20", "entry 20"});
  INFO(tampered.what);
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  make_book_of_layout_25(file);
  { Book::open(file); }
  behind_its_back(file, std::string("DROP TRIGGER place_is_closed; DROP TRIGGER place_keeps; DROP TRIGGER "
                                    "place_stays; DROP TRIGGER unnamed_stays; ") +
                            tampered.sql);
  const Health health = check(Book::open(file));
  CHECK_FALSE(health.sound);
  const std::string wanted = std::string(tampered.found) + ": what is kept beside it is not what it says";
  CHECK(std::find(health.findings.begin(), health.findings.end(), wanted) != health.findings.end());
}

TEST_CASE("a place of today is under its seal", "[book]") {
  Shop shop;
  const EntryId line = shop.post(quick("hose", "9.00"));
  const EntryId full = shop.post(paper("7", "hose", ", replaces = " + std::to_string(line)));
  shop.close();
  behind_its_back(shop.file(), "DROP TRIGGER place_stays; DELETE FROM place");
  shop.reopen();
  const Health health = shop.health();
  const std::string wanted = fmt::format("entry {}: was changed behind the program's back", full);
  CHECK(std::find(health.findings.begin(), health.findings.end(), wanted) != health.findings.end());
}

TEST_CASE("no entry takes the place of a later one, or of one that is not there", "[book]") {
  Shop shop;
  const EntryId line = shop.post(quick("hose", "9.00"));
  CHECK_THAT(shop.sql(fmt::format("INSERT INTO place VALUES ({0}, {0}, 'corrects')", line + 1)),
             Catch::StartsWith("CHECK constraint failed"));
  CHECK_THAT(shop.sql(fmt::format("INSERT INTO place VALUES ({}, {}, 'follows')", line + 1, line)),
             Catch::StartsWith("CHECK constraint failed"));
  CHECK(shop.sql(fmt::format("INSERT INTO place VALUES ({}, {}, 'corrects')", line + 9, line + 5)) ==
        "FOREIGN KEY constraint failed");
}

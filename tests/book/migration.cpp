// Books made by older versions, and by newer ones.
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "book/care/check.h"
#include "book/care/export.h"
#include "book/care/mend.h"
#include "book/care/older_apart.h"
#include "book/care/restore.h"
#include "book/events/finding.h"
#include "book/events/post.h"
#include "book/events/void_entry.h"
#include "book/fixture.h"
#include "book/ledger/migrations.h"
#include "book/ledger/query.h"
#include "book/questions/period.h"
#include "book/questions/vehicle_money.h"

using namespace nonrunner;
using namespace nonrunner::book;
namespace fs = std::filesystem;

namespace {

std::string bytes(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}
int version(const fs::path& path) {
  return SQLite::Database(path.string(), SQLite::OPEN_READONLY).execAndGet("PRAGMA user_version").getInt();
}

// tests/book/older_book.sql is the whole content of a book of layout 9, made by the version before it: a car
// sold, with a full paper, a cost after the sale and a photograph; one whose sale was taken back, with a cost booked
// while it stood; one that was passed; a shelf, a core, a tool kept as an asset.
void make_older_book(const fs::path& file) {
  SQLite::Database old(file.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  std::ifstream in(NONRUNNER_SOURCE "/tests/book/older_book.sql");
  old.exec(std::string{std::istreambuf_iterator<char>(in), {}});
  const fs::path beside = file.string() + ".files";
  fs::create_directory(beside);
  std::ofstream(beside / "73cb3858a687a8494ca3323053016282f3dad39d42cf62ca4e79dda2aac7d9ac") << "x\n";
}

}  // namespace

TEST_CASE("migrations are numbered without a gap", "[book]") {
  REQUIRE(migrations().size() >= 4);
  for (std::size_t i = 0; i < migrations().size(); ++i) {
    const std::string number = std::to_string(i + 1);
    CHECK(migrations()[i].name.substr(0, 5) == std::string(4 - number.size(), '0') + number + "-");
  }
}

TEST_CASE("a book of every older version opens, is brought up to date, and a copy of it is set aside",
          "[book]") {
  const std::size_t newest = migrations().size();
  for (std::size_t old = 1; old < newest; ++old) {
    INFO("layout " << old);
    TemporaryFolder folder;
    const fs::path file = folder.path() / "shop.book",
                   aside = fmt::format("{}.before-{:04}", file.string(), newest);
    Book::create_old(file, old);
    {
      Book book = Book::open(file);
      const Health health = check(book);
      CHECK(health.findings.empty());
      CHECK(health.sound);
      // It works like any other.
      Recording recording(book, "2025-06-30T12:00:00Z", Day(2025, 6, 30));
      post(recording, R"(event = [{ do = "owner in", date = 2025-03-01, purse = "cash", amount = 5.00 }])",
           "events.toml", folder.path(), {});
      recording.keep();
      CHECK(balance_of(book, account::purse, "cash").amount == usd("5"));
    }
    CHECK(version(file) == static_cast<int>(newest));
    CHECK(version(aside) == static_cast<int>(old));
    CHECK((fs::status(aside).permissions() & fs::perms::all) ==
          (fs::perms::owner_read | fs::perms::owner_write));
    // Opened again, nothing is set aside again.
    const std::string copy = bytes(aside);
    { Book::open(file); }
    CHECK(bytes(aside) == copy);
  }
}

TEST_CASE("what an older book holds is there after it was brought up to date", "[book]") {
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  Book::create_old(file, 1);
  behind_its_back(
      file,
      "INSERT OR REPLACE INTO setting VALUES ('currency', 'KWD'), ('distance', 'km'), ('hour', '7.500');"
      "INSERT INTO vehicle VALUES ('pip')");
  const Book book = Book::open(file);
  CHECK(book.currency().code == "KWD");
  CHECK(book.distance_unit() == "km");
  CHECK(all_tags(book) == std::vector<std::string>{"pip"});
}

TEST_CASE("a migration that cannot be made leaves the book as it was", "[book]") {
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  Book::create_old(file, 3);
  behind_its_back(file,
                  "CREATE TABLE taken_in (in_the_way)");  // a later migration makes a table of this name
  CHECK(Shop::said([&] { Book::open(file); }) == file.string() +
                                                     ": the book cannot be brought up to date: its layout is "
                                                     "not ours: there is a table taken_in that this "
                                                     "program does not make; it is as it was");
  CHECK(version(file) == 3);
  SQLite::Database plain(file.string(), SQLite::OPEN_READONLY);
  CHECK(
      plain.execAndGet("SELECT count(*) FROM sqlite_schema WHERE name IN ('clock', 'appraisal')").getInt() ==
      0);
}

TEST_CASE("a book of a newer version is refused and not one byte of it changes", "[book]") {
  Shop shop;
  shop.close();
  behind_its_back(shop.file(), "PRAGMA user_version = 99");
  const std::string before = bytes(shop.file());
  CHECK(Shop::said([&] { shop.reopen(); }) ==
        shop.file().string() +
            ": the book was written by a newer version (its layout is 99, this program knows " +
            std::to_string(migrations().size()) + "); use the newer program; nothing was changed");
  CHECK(bytes(shop.file()) == before);
  CHECK(std::distance(fs::directory_iterator(shop.folder()), {}) == 1);  // nothing was set aside
}

TEST_CASE("what is no book is refused and left alone", "[book]") {
  TemporaryFolder folder;
  const auto said = [&](const std::string& name) {
    return Shop::said([&] { Book::open(folder.path() / name); });
  };
  const std::string at = folder.path().string() + "/";
  CHECK(said("none.book") == at + "none.book: there is no book here; make one with: nonrunner start " + at +
                                 "none.book --currency USD --distance mi");
  fs::create_directory(folder.path() / "folder.book");
  CHECK(said("folder.book") == at + "folder.book: found something that is not a file, expected a book");
  std::ofstream(folder.path() / "letter.book")
      << "Dear book, this is a letter, and it is longer than a hundred bytes, so that it could be the "
         "head of a file of the kind that books are.";
  CHECK(said("letter.book") ==
        at + "letter.book: the file is no book, or its first bytes were changed; nothing was written; "
             "bring back the last backup or export with: nonrunner restore FROM --book NEW");
  std::ofstream(folder.path() / "empty.book");
  CHECK(said("empty.book") == at + "empty.book: the file is not a book of this program; nothing was changed");
  {
    SQLite::Database other((folder.path() / "other.book").string(),
                           SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    other.exec("CREATE TABLE recipe (x)");
  }
  const std::string before = bytes(folder.path() / "other.book");
  CHECK(said("other.book") == at + "other.book: the file is not a book of this program; nothing was changed");
  CHECK(bytes(folder.path() / "other.book") == before);
}

TEST_CASE("a book is made where nothing is, for its owner only", "[book]") {
  Shop shop;
  CHECK((fs::status(shop.file()).permissions() & fs::perms::all) ==
        (fs::perms::owner_read | fs::perms::owner_write));
  CHECK(Shop::said([&] { Book::create(shop.file(), Currency{}, "mi"); }) ==
        shop.file().string() +
            ": there is something at this place already, expected a new name for the book");
}

TEST_CASE("what an older book shows otherwise of a sold car stands in the note, the first result as well",
          "[book][days]") {
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  Book::create_old(file, 9);
  // As the version before wrote them, but for the seals: a part, a seat sold off and a charge typed after the sale, the first
  // two with days before it.
  const std::string sealed = ", '2025-01-12T10:00:00Z', zeroblob(32), zeroblob(32));";
  behind_its_back(
      file,
      "INSERT OR REPLACE INTO setting VALUES ('currency', 'USD'), ('distance', 'mi'); INSERT INTO vehicle "
      "VALUES "
      "('pip');"
      "INSERT INTO account VALUES (1, 'purse', 'cash'), (2, 'vehicle cost', 'pip'), (3, 'sales', 'pip'), "
      "(4, 'selling cost', 'pip'), (5, 'cost of sale', 'pip'), (6, 'recovered income', 'pip'), (7, 'late "
      "cost', "
      "'pip');"
      "INSERT INTO posting VALUES (1, 1, 2, 100000, NULL), (1, 2, 1, -100000, NULL);"
      "INSERT INTO mention VALUES (1, 'pip'); INSERT INTO life VALUES (1, 'pip', 'bought');"
      "INSERT INTO entry VALUES (1, '2024-12-05', 'buy', 1, '{ do = \"buy\", date = 2024-12-05, vehicle = "
      "\"pip\", price = 1000.00, purse = \"cash\" }', NULL" +
          sealed +
          "INSERT INTO posting VALUES (2, 1, 1, 140000, NULL), (2, 2, 3, -140000, NULL), (2, 3, 4, 2000, "
          "NULL), "
          "(2, 4, 1, -2000, NULL), (2, 5, 5, 100000, NULL), (2, 6, 2, -100000, NULL);"
          "INSERT INTO mention VALUES (2, 'pip'); INSERT INTO life VALUES (2, 'pip', 'sold');"
          "INSERT INTO entry VALUES (2, '2025-01-10', 'sell', 1, '{ do = \"sell\", date = 2025-01-10, "
          "vehicle = "
          "\"pip\", price = 1400.00, purse = \"cash\", costs = [{ name = \"advert\", amount = 20.00, purse = "
          "\"cash\" }] }', NULL" +
          sealed +
          "INSERT INTO posting VALUES (3, 1, 1, 1200, NULL), (3, 2, 6, -1200, NULL);"
          "INSERT INTO mention VALUES (3, 'pip');"
          "INSERT INTO entry VALUES (3, '2025-01-05', 'recover', 1, '{ do = \"recover\", date = 2025-01-05, "
          "vehicle = \"pip\", what = \"seat\", amount = 12.00, purse = \"cash\" }', NULL" +
          sealed +
          "INSERT INTO posting VALUES (4, 1, 4, 500, NULL), (4, 2, 1, -500, NULL);"
          "INSERT INTO mention VALUES (4, 'pip');"
          "INSERT INTO entry VALUES (4, '2025-01-11', 'selling cost', 1, '{ do = \"selling cost\", date = "
          "2025-01-11, vehicle = \"pip\", what = \"charge\", amount = 5.00, purse = \"cash\" }', NULL" +
          sealed +
          "INSERT INTO posting VALUES (5, 1, 7, 4000, NULL), (5, 2, 1, -4000, NULL);"
          "INSERT INTO mention VALUES (5, 'pip');"
          "INSERT INTO line VALUES (5, 1, 'lamp', 'lamp', 1000, 4000, 'part', NULL, 0, 0, 0, 0, 0, NULL, "
          "NULL, "
          "NULL, 'Harrow'); INSERT INTO share VALUES (5, 1, 'pip', 1000);"
          "INSERT INTO paper VALUES (5, 'Harrow', '2', 4000, 1, 1, NULL);"
          "INSERT INTO entry VALUES (5, '2024-12-30', 'receipt', 1, '{ do = \"receipt\", date = 2024-12-30, "
          "supplier = \"Harrow\", number = \"2\", paid = { cash = 40.00 }, total = 40.00, line = [{ id = "
          "\"lamp\", what = \"lamp\", qty = 1, amount = 40.00, kind = \"part\", to = \"pip\" }] }', NULL" +
          sealed);
  { Book::open(file); }
  const std::string note = bytes(fmt::format("{}.before-{:04}.txt", file.string(), migrations().size()));
  CHECK(note.substr(note.find("\n\n") + 2) ==
        "the year 2024: result -40.00 before, 0.00 now\n"
        "the year 2025: result 387.00 before, 347.00 now\n"
        "pip: cost: 1000.00 before, 1040.00 now\n"
        "pip: late cost: 40.00 before, 0.00 now\n"
        "pip: recovered before its end: 0.00 before, 12.00 now\n"
        "pip: recovered after its end: 12.00 before, 0.00 now\n"
        "pip: cash profit on the day of its end: 380.00 before, 352.00 now\n"
        "pip: in the inventory on 2024-12-31: 1000.00 before, 1040.00 now\n");
}

namespace {

// Entries of the version before, as it wrote them but for the seals.
std::string older_entry(int entry, const std::string& day, const std::string& kind, const std::string& event,
                        const std::string& voids = "NULL") {
  return fmt::format(
      "INSERT INTO mention VALUES ({0}, 'wren'); INSERT INTO entry VALUES ({0}, '{1}', '{2}', 1, '{3}', {4}, "
      "'2025-01-12T10:00:00Z', zeroblob(32), zeroblob(32));",
      entry, day, kind, event, voids);
}
const char* const wren_is_bought =
    "INSERT OR REPLACE INTO setting VALUES ('currency', 'USD'), ('distance', 'mi'); INSERT INTO vehicle "
    "VALUES ('wren');"
    "INSERT INTO account VALUES (1, 'purse', 'cash'), (2, 'vehicle cost', 'wren'), (3, 'sales', 'wren'), "
    "(4, 'selling cost', 'wren'), (5, 'cost of sale', 'wren');"
    "INSERT INTO posting VALUES (1, 1, 2, 100000, NULL), (1, 2, 1, -100000, NULL);"
    "INSERT INTO life VALUES (1, 'wren', 'bought');";
std::string bought_wren() {
  return wren_is_bought +
         older_entry(1, "2024-03-01", "buy",
                     "{ do = \"buy\", date = 2024-03-01, vehicle = \"wren\", price = 1000.00, "
                     "purse = \"cash\" }");
}

}  // namespace

TEST_CASE("a quick line of one year and its paper of the next leave both years of an older book whole",
          "[book][days][migration]") {
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  Book::create_old(file, 9);
  const auto paper = [](const char* day, const char* more, const char* amount, const char* what) {
    return fmt::format(
        "{{ do = \"receipt\", date = {}, supplier = \"Cleave Yard\", {}, paid = {{ cash = {} }}, total = {}, "
        "line = "
        "[{{ id = \"{}\", what = \"{}\", qty = 1, amount = {}, kind = \"part\", to = \"wren\" }}] }}",
        day, more, amount, amount, what, what, amount);
  };
  behind_its_back(
      file,
      bought_wren() +
          "INSERT INTO posting VALUES (2, 1, 2, 5000, NULL), (2, 2, 1, -5000, NULL);"
          "INSERT INTO line VALUES (2, 1, 'parts', 'parts', 1000, 5000, 'part', NULL, 0, 0, 0, 0, 0, NULL, "
          "NULL, NULL, "
          "'Cleave Yard'); INSERT INTO share VALUES (2, 1, 'wren', 1000);"
          "INSERT INTO paper VALUES (2, 'Cleave Yard', '', 5000, 0, 1, NULL);" +
          older_entry(2, "2024-12-30", "receipt", paper("2024-12-30", "itemised = false", "50.00", "parts")) +
          "INSERT INTO posting VALUES (3, 1, 2, -5000, NULL), (3, 2, 1, 5000, NULL);" +
          older_entry(3, "2024-12-30", "void",
                      "{ do = \"void\", date = 2025-01-02, entry = 2, why = \"replaced by the full paper\" }",
                      "2") +
          "INSERT INTO posting VALUES (4, 1, 2, 5200, NULL), (4, 2, 1, -5200, NULL);"
          "INSERT INTO line VALUES (4, 2, 'lamp', 'lamp', 1000, 5200, 'part', NULL, 0, 0, 0, 0, 0, NULL, "
          "NULL, NULL, "
          "'Cleave Yard'); INSERT INTO share VALUES (4, 2, 'wren', 1000);"
          "INSERT INTO paper VALUES (4, 'Cleave Yard', '7', 5200, 1, 1, NULL);" +
          older_entry(4, "2025-01-02", "receipt",
                      paper("2025-01-02", "number = \"7\", replaces = 2", "52.00", "lamp")));
  const Book book = Book::open(file);
  const auto moved = [&](const char* kind, int year) {
    Money sum;
    for (const AccountMovement& each : movements(book, Day(year, 1, 1), Day(year, 12, 31)))
      if (each.kind == kind) sum += each.sum;
    return sum;
  };
  // What the cars cost more and what the purses have less: the quick line in the one year, two more in the other.
  CHECK(moved(account::vehicle_cost, 2024) == usd("1050"));
  CHECK(moved(account::purse, 2024) == usd("-1050"));
  CHECK(moved(account::vehicle_cost, 2025) == usd("2"));
  CHECK(moved(account::purse, 2025) == usd("-2"));
  Money lines;
  for (const MoneyLine& line : money_of(book, "wren", on("2024-12-31"))) lines -= line.amount;
  CHECK(lines == usd("1050"));
}

namespace {
// A sale with an advert of 20.00 that fell through in a book of layout 9, which gave the advert back too.
void make_sale_taken_back(const fs::path& file) {
  Book::create_old(file, 9);
  behind_its_back(
      file,
      bought_wren() +
          "INSERT INTO posting VALUES (2, 1, 1, 90000, NULL), (2, 2, 3, -90000, NULL), (2, 3, 4, 2000, "
          "NULL), "
          "(2, 4, 1, -2000, NULL), (2, 5, 5, 100000, NULL), (2, 6, 2, -100000, NULL);"
          "INSERT INTO life VALUES (2, 'wren', 'sold');" +
          older_entry(2, "2024-05-01", "sell",
                      "{ do = \"sell\", date = 2024-05-01, vehicle = \"wren\", price = 900.00, purse = "
                      "\"cash\", costs "
                      "= [{ name = \"advert\", amount = 20.00, purse = \"cash\" }] }") +
          "INSERT INTO posting VALUES (3, 1, 1, -90000, NULL), (3, 2, 3, 90000, NULL), (3, 3, 4, -2000, "
          "NULL), "
          "(3, 4, 1, 2000, NULL), (3, 5, 5, -100000, NULL), (3, 6, 2, 100000, NULL);" +
          older_entry(3, "2024-06-01", "void",
                      "{ do = \"void\", date = 2024-06-01, entry = 2, why = \"it came back\", later = true }",
                      "2") +
          "INSERT INTO setting VALUES ('closed', '2024-06-30');");
}
}  // namespace

TEST_CASE("an older book's sale that was taken back gives its costs back in a restored export as well",
          "[book][days][migration]") {
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  make_sale_taken_back(file);
  const Book book = Book::open(file);
  const RestoreWith with{
      "2026-11-26T12:00:00Z", Day(2026, 11, 26), [](const Book&) { return Appraise(); }, {}};
  const Exported exported = export_to(book, folder.path() / "out", true, Day(2026, 11, 26), {}, &with);
  // The end of the closed period is an entry there, and no difference.
  CHECK(exported.apart == std::vector<std::string>{});
  restore(folder.path() / "out", folder.path() / "again.book", with);
  const Book again = Book::open(folder.path() / "again.book");
  CHECK(balance_of(again, account::purse, "cash").amount == usd("-1000"));
  CHECK(balance_of(again, account::selling_cost, "wren").amount == Money{});
  CHECK(closed_until(again) == on("2024-06-30"));
}

TEST_CASE("an older book's sale that was taken back gives its costs back in the mended one, damaged or not",
          "[book][days][migration]") {
  TemporaryFolder folder;
  const fs::path whole = folder.path() / "shop.book", torn = folder.path() / "torn.book";
  make_sale_taken_back(whole);
  // As it is; without a page that holds nothing of the entries; without the one on which the layout begins to be told.
  for (const char* gone : {"nothing", "trip", "sqlite_schema"}) {
    INFO(gone);
    const int page =
        SQLite::Database(whole.string(), SQLite::OPEN_READONLY)
            .execAndGet(fmt::format("SELECT coalesce((SELECT rootpage FROM sqlite_schema WHERE name = "
                                    "'{0}'), '{0}' = 'sqlite_schema')",
                                    gone))
            .getInt();
    std::string spoilt = bytes(whole);
    const std::size_t from = page == 1 ? 100 : static_cast<std::size_t>(page - 1) * 4096;
    if (page != 0) std::fill_n(spoilt.begin() + static_cast<std::ptrdiff_t>(from), 900, '\x55');
    std::ofstream(torn, std::ios::binary) << spoilt;
    const fs::path made = folder.path() / (std::string(gone) + ".book");
    const Mended mended = mend(torn, made, "2026-11-26T12:00:00Z", Day(2026, 11, 26));
    INFO(fmt::format("{}", fmt::join(mended.changes, "\n")));
    CHECK(mended.entries == 4);  // with the end of the closed period
    const Book book = Book::open(made);
    CHECK(balance_of(book, account::purse, "cash").amount == usd("-1000"));
    CHECK(balance_of(book, account::selling_cost, "wren").amount == Money{});
    CHECK(check(book).findings == std::vector<std::string>{});
  }
}

// Its quick line of 2024-03-10 gave its place to a paper of 2024-04-10, which is entered for the earlier of both days now.
TEST_CASE("what is otherwise by an older book's age is told apart from what else its export makes otherwise",
          "[book][days][migration]") {
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  make_older_book(file);
  Book book = Book::open(file);
  const Day today(2026, 11, 26);
  const RestoreWith with{"2026-11-26T12:00:00Z", today, [](const Book&) { return Appraise(); }, {}};
  {
    Recording recording(book, "2026-11-26T12:00:00Z", today);
    post(recording,
         R"(event = [{ do = "draw", date = 2024-07-01, vehicle = "gull", stock = "oil", qty = 1 },
                     { do = "hours", date = 2024-07-02, vehicle = "gull", operation = "weld", own = 2 },
                     { do = "owner out", date = 2024-07-03, purse = "cash", amount = 25.00 }])",
         "events.toml", folder.path(), {});
    recording.keep();
  }
  const fs::path out = folder.path() / "out";
  const Exported exported = export_to(book, out, true, today, {}, &with);
  // What an older version gave back for a line with a discount is taken as it was.
  CHECK(exported.apart == std::vector<std::string>{});
  CHECK(exported.older ==
        std::vector<std::string>{"entries: entry 14: \"2024-04-10 | receipt\", and \"2024-03-10 | receipt\" "
                                 "when it is entered again"});
  const std::string events = bytes(out / "events.toml");
  const auto later = [&](const std::string& was, const std::string& is) {
    TemporaryFolder changed;
    fs::copy(out, changed.path() / "out", fs::copy_options::recursive);
    std::string text = events;
    text.replace(text.rfind(was), was.size(), is);
    std::ofstream(changed.path() / "out" / "events.toml", std::ios::binary) << text;
    restore(changed.path() / "out", changed.path() / "again.book", with);
    return older_apart(book, Book::open(changed.path() / "again.book"), {}).later;
  };
  const std::vector<std::string> more_hours = later("own = 2", "own = 3");
  CHECK(more_hours ==
        std::vector<std::string>{
            "events: entry 30: \"...ion = \"weld\", own = 2 }\", and \"...ion = \"weld\", own = 3 }\" when "
            "it is "
            "entered again",
            "labour: entry 30: \"gull | weld | 2000 | 0 | 0\", and \"gull | weld | 3000 | 0 | 0\" when it is "
            "entered again"});
  const auto where = [](const std::vector<std::string>& all) {
    std::string text;
    for (const std::string& each : all) text += each.substr(0, each.find(':', each.find(':') + 1)) + "; ";
    return text;
  };
  CHECK(where(later("amount = 25.00", "amount = 26.00")) ==
        "events: entry 31; postings: entry 31; accounts: owner; accounts: purse cash; ");
  CHECK(where(later("qty = 1 }", "qty = 0.5 }")) ==
        "events: entry 29; postings: entry 29; purpose: entry 29; shelf: entry 29; ");
  // What one entry is gone by does not stay unseen behind those that follow.
  CHECK(
      where(later("{ do = \"hours\", date = 2024-07-02, vehicle = \"gull\", operation = \"weld\", own = 2 },",
                  "")) ==
      "entries: entry 30; events: entry 30; postings: entry 30; labour: entry 30; "
      "mention: entry 30; ");
}

// Its oil of 2024-03-02 was typed after the draw of 2024-03-05: entered again an entry `average` follows, and whatever comes
// later has another number.
TEST_CASE("what was put right in an older book since is no difference where entries have other numbers",
          "[book][days][migration]") {
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  Book::create_old(file, 9);
  const auto oil = [](int entry, const std::string& day, int amount) {
    return fmt::format(
               "INSERT INTO posting VALUES ({0}, 1, 6, {1}00, 10000), ({0}, 2, 1, -{1}00, NULL); INSERT INTO "
               "line VALUES ({0}, {0}, 'oil{0}', 'oil', 1000, {1}00, 'stock', NULL, 0, 0, 0, 0, 0, NULL, "
               "'oil', 10000, 'Harrow'); INSERT INTO paper VALUES ({0}, 'Harrow', '{0}', {1}00, 1, 1, NULL);",
               entry, amount) +
           older_entry(
               entry, day, "receipt",
               fmt::format("{{ do = \"receipt\", date = {0}, supplier = \"Harrow\", number = \"{2}\", paid = "
                           "{{ cash = {1}.00 }}, total = "
                           "{1}.00, line = [{{ id = \"oil{2}\", what = \"oil\", amount = {1}.00, kind "
                           "= \"stock\", stock = \"oil\", gives = 10 }}] }}",
                           day, amount, entry));
  };
  behind_its_back(
      file,
      bought_wren() + "INSERT INTO account VALUES (6, 'stock', 'oil');" + oil(2, "2024-03-01", 10) +
          "INSERT INTO posting VALUES (3, 1, 2, 500, NULL), (3, 2, 6, -500, -5000);" +
          older_entry(3, "2024-03-05", "draw",
                      "{ do = \"draw\", date = 2024-03-05, vehicle = \"wren\", stock = \"oil\", qty = 5 "
                      "}") +
          oil(4, "2024-03-02", 30));
  Book book = Book::open(file);
  const Day today(2026, 11, 26);
  const RestoreWith with{"2026-11-26T12:00:00Z", today, [](const Book&) { return Appraise(); }, {}};
  {
    Recording recording(book, "2026-11-26T12:00:00Z", today);
    const std::string hours = "do = \"hours\", date = 2024-07-02, vehicle = \"wren\", operation = \"weld\"";
    post(recording,
         "event = [{ " + hours +
             ", own = 2 }, { do = \"void\", date = 2024-07-02, entry = 5, why = \"put right\", makes_way = "
             "true }, { " +
             hours + ", own = 3, corrects = 5 }]",
         "events.toml", folder.path(), {});
    recording.keep();
  }
  const Exported exported = export_to(book, folder.path() / "out", true, today, {}, &with);
  // Its seals are none, so that it is not sound, and what its shelf costs by its age stands here too: nothing else does.
  for (const std::string& each : exported.apart) CHECK(each.starts_with("accounts: "));
  restore(folder.path() / "out", folder.path() / "again.book", with);
  const Book again = Book::open(folder.path() / "again.book");
  CHECK(last_entry(again) == last_entry(book) + 1);
  CHECK(first<EntryId, std::string>(again, "SELECT takes, how FROM place WHERE entry = 8", {}) ==
        std::tuple<EntryId, std::string>(6, "corrects"));
}

TEST_CASE("a book of the older layout keeps its seals, and its figures read by days", "[book][days]") {
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  make_older_book(file);
  Book book = Book::open(file);
  Health health = check(book);
  CHECK(health.findings == std::vector<std::string>{});
  CHECK(health.head == "b51b74ba3ae1fe548d0ce439a4095bd7b1f665c86b7af8b77b209d38439b18fd");
  CHECK(first<std::string, std::string>(book, "SELECT vehicle, name FROM attachment", {}) ==
        std::tuple<std::string, std::string>("pip", "title.jpg"));
  // What is shown otherwise now stands beside the copy: what was booked while a sale stood that was taken back.
  const std::string note = bytes(fmt::format("{}.before-{:04}.txt", file.string(), migrations().size()));
  CHECK(note.substr(note.find("\n\n") + 2) ==
        "the year 2024: result 686.89 before, 716.89 now\n"
        "gull: in the inventory on 2024-12-31: -30.00 before, 0.00 now\n");
  const Day today(2026, 11, 26);
  const VehicleFigures pip = figures_of(book, "pip", today);
  // As the version before showed them; the difference of 7.00 that the full paper brought stays late cost.
  CHECK(pip.cost == usd("1247.11"));
  CHECK(pip.late_cost == usd("19"));
  CHECK(pip.price_paid == usd("1000"));
  CHECK(pip.fees == usd("62"));
  CHECK(pip.cash_profit == usd("638.89"));
  CHECK(pip.first_cash_profit == usd("657.89"));
  CHECK(pip.break_even_price == usd("1327.49"));
  Money lines;
  for (const MoneyLine& line : money_of(book, "pip"))
    if (line.kind != MoneyKind::due_back) lines += line.amount;
  CHECK(lines == usd("638.89"));
  const VehicleFigures gull = figures_of(book, "gull", today);
  CHECK(gull.cost == usd("440"));
  CHECK(gull.carried == Money{});
  CHECK(gull.recovered_beyond_cost == usd("60"));
  CHECK(gull.break_even_price == Money{});  // it was shown as -110.00
  CHECK(figures_of(book, "wren", today).looking == usd("30"));
  CHECK(figures_of(book, "teal", today).carried == usd("11.29"));
  CHECK(found_cause(book, "gull") == "bracket");
  CHECK(trips(book, on("2024-01-01"), on("2024-12-31")).front().why == "viewing");
  // What comes in now follows days, what takes back an old entry mirrors it.
  Recording recording(book, "2026-11-26T12:00:00Z", today);
  post(recording,
       R"(event = [{ do = "void", date = 2024-05-02, later = true, entry = 12, why = "it came back" },
                   { do = "draw", date = 2024-07-01, vehicle = "gull", stock = "oil", qty = 1 },
                   { do = "void", date = 2024-08-01, entry = 7, why = "another car" }])",
       "events.toml", folder.path(), {});
  recording.keep();
  const VehicleFigures back = figures_of(book, "pip", today);
  CHECK(back.carried == usd("1233.11"));   // 1247.11 - 25.00 + 19.00 - 8.00 of oil
  CHECK(back.selling_costs == usd("20"));  // the advert stays paid
  CHECK(figures_of(book, "pip", today, on("2024-05-01")).cash_profit == usd("646.89"));
  CHECK(balance_of(book, account::stock, "oil").amount ==
        usd("6"));  // 2.5 were found there: 10.00, less 4.00
  health = check(book);
  CHECK(health.findings == std::vector<std::string>{});
  behind_its_back(
      file,
      "DROP TRIGGER purpose_keeps; UPDATE purpose SET amount = amount + 1 WHERE entry = 2 AND kind = "
      "'fee'");
  health = check(book);
  CHECK(std::find(health.findings.begin(), health.findings.end(),
                  "entry 2: what is kept beside it is not what it says") != health.findings.end());
}

TEST_CASE("entries of an older book whose sums are out of range can be taken back, and then it is shown",
          "[book][days]") {
  TemporaryFolder folder;
  const fs::path file = folder.path() / "shop.book";
  make_older_book(file);
  {
    SQLite::Database old(file.string(), SQLite::OPEN_READWRITE);
    // Three times nine tenths of what money can say, as an older version took it.
    old.exec("INSERT OR IGNORE INTO account (kind, name) VALUES ('owner', ''), ('purse', 'cash')");
    for (int more = 0; more < 3; ++more) {
      const char* const account = "(SELECT account FROM account WHERE kind = '{}' AND name = '{}')";
      const std::string next = "(SELECT max(entry) + 1 FROM entry)";
      for (const auto& [seq, kind, name, amount] : {std::tuple(1, "purse", "cash", "900000000000000"),
                                                    std::tuple(2, "owner", "", "-900000000000000")})
        old.exec(fmt::format("INSERT INTO posting VALUES ({}, {}, {}, {}, NULL)", next, seq,
                             fmt::format(fmt::runtime(account), kind, name), amount));
      old.exec(
          fmt::format("INSERT INTO entry SELECT {}, '2024-09-01', 'owner in', 1, '{{ do = \"owner in\", date "
                      "= 2024-09-01, amount = "
                      "9000000000000.00, purse = \"cash\" }}', NULL, '2024-09-01T10:00:00Z', hash, hash FROM "
                      "entry WHERE entry = "
                      "(SELECT max(entry) FROM entry)",
                      next));
    }
  }
  Book book = Book::open(file);
  const EntryId last = last_entry(book);
  CHECK_THROWS(balances(book, account::purse));
  for (EntryId entry = last - 2; entry <= last; ++entry) {
    Recording recording(book, "2026-11-26T12:00:00Z", Day(2026, 11, 26));
    record(recording, Void{Day(2026, 11, 26), entry, "typed as a barcode", false, {}});
    recording.keep();
  }
  const auto purses = balances(book, account::purse);
  CHECK(std::all_of(purses.begin(), purses.end(),
                    [](const NamedBalance& each) { return each.amount < usd("10000"); }));
}

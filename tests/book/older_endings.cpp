// Books in which a sale of a closed year was put right before the book kept under which day the car ended, or kept it as a row
// of `stood` without hours: brought up to date they show what their export makes.
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "book/care/export.h"
#include "book/care/mend.h"
#include "book/care/restore.h"
#include "book/events/correct.h"
#include "book/fixture.h"
#include "book/ledger/position.h"
#include "book/ledger/query.h"
#include "book/ledger/seal_of.h"

using namespace nonrunner;
using namespace nonrunner::book;
namespace fs = std::filesystem;

namespace {

// A tow, a wheel and an advert come between the sale of pip and the close; then the sale is put right, with the last entry.
void sold_and_put_right(Shop& shop) {
  shop.today = Day(2026, 1, 10);
  shop.now = "2026-01-10T12:00:00Z";
  shop.post(R"(
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 1000.00, purse = "cash" },
    { do = "sell", date = 2025-03-01, vehicle = "pip", price = 2000.00, purse = "cash" },
    { do = "receipt", date = 2025-06-02, supplier = "Harrow", number = "7", paid = "cash", total = 40.00, line = [
        { what = "tow", amount = 40.00, kind = "part", to = "pip" }] },
    { do = "recover", date = 2025-06-03, vehicle = "pip", what = "wheel", amount = 5.00, purse = "cash" },
    { do = "selling cost", date = 2025-06-04, vehicle = "pip", what = "advert", amount = 30.00, purse = "cash" },
    { do = "close", date = 2025-12-31 })");
  Correction correction;
  correction.entry = 2;
  correction.amount = "2100";
  shop.record([&](Recording& recording) { correct(recording, correction); });
}

enum class Kept { not_at_all, without_hours };

// As a version before recorded that entry, its seal as well.
void as_kept_before(Shop& shop, Kept kept) {
  Entry entry = load_entry(shop.book(), last_entry(shop.book()));
  std::string day;
  std::erase_if(entry.details, [&](const Detail& detail) {
    if (detail.table != detail_table("ended")) return false;
    day = std::get<std::string>(detail.cells.front());
    return true;
  });
  REQUIRE(day == "2025-03-01");
  std::string changes;
  if (kept == Kept::without_hours) {
    entry.details.push_back({detail_table("stood"), {day, std::int64_t{0}, std::int64_t{0}}});
    std::stable_sort(entry.details.begin(), entry.details.end(),
                     [](const Detail& a, const Detail& b) { return a.table < b.table; });
    changes = fmt::format("INSERT INTO stood VALUES ({}, '{}', 0, 0);", entry.id, day);
  }
  Hash previous{};
  const std::string before = *first<std::string>(shop.book(), "SELECT hash FROM entry WHERE entry = :entry",
                                                 {{":entry", entry.id - 1}});
  std::copy(before.begin(), before.end(), previous.begin());
  const auto trigger = [&](const char* name) {
    return *first<std::string>(shop.book(), "SELECT sql FROM sqlite_schema WHERE name = :name",
                               {{":name", name}});
  };
  const std::string keeps = trigger("entry_keeps"), closed = trigger("stood_is_closed");
  shop.close();
  behind_its_back(
      shop.file(),
      "DROP TRIGGER entry_keeps; DROP TRIGGER stood_is_closed; DROP TABLE ended; DELETE FROM sealed_from "
      "WHERE what = 'ended'; PRAGMA user_version = 27;" +
          changes +
          fmt::format("UPDATE entry SET hash = x'{}' WHERE entry = {};", hex(sealed(entry, previous)),
                      entry.id) +
          keeps + ";" + closed);
}

std::string told(const Book& book) {
  const Currency& c = book.currency();
  const Position pip = position_of(book, "pip");
  const VehicleFigures figures = figures_of(book, "pip", Day(2026, 1, 10));
  return fmt::format("cost {}, late {}, recovered {} and {}, first {}, now {}", pip.cost.plain(c),
                     pip.late_cost.plain(c), pip.recovered_before.plain(c), pip.recovered_after.plain(c),
                     figures.first_cash_profit->plain(c), figures.cash_profit->plain(c));
}

std::string bytes(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

TEST_CASE("a sale of a closed year that an older version put right ends its car where it ended",
          "[book][days][migration]") {
  const char* as_it_is = "cost 1000.00, late 40.00, recovered 0.00 and 5.00, first 1100.00, now 1035.00";
  for (const Kept kept : {Kept::not_at_all, Kept::without_hours}) {
    INFO(static_cast<int>(kept));
    Shop shop;
    sold_and_put_right(shop);
    CHECK(told(shop.book()) == as_it_is);
    const fs::path aside = shop.file().string() + ".before-0028.txt";
    as_kept_before(shop, kept);
    shop.reopen();
    CHECK(told(shop.book()) == as_it_is);
    CHECK(shop.health().findings.empty());
    // What it had shown stands in the note.
    const std::string note = bytes(aside);
    const auto at = note.find("pip: ");
    REQUIRE(at != std::string::npos);
    const std::string first_result = "pip: cash profit on the day of its end: 1070.00 before, 1100.00 now\n";
    CHECK(note.substr(at) == (kept == Kept::without_hours
                                  ? first_result
                                  : "pip: cash profit on the day of its end: 1035.00 before, 1100.00 now\n"
                                    "pip: cost: 1040.00 before, 1000.00 now\n"
                                    "pip: cost of what was sold in 2026: 35.00 before, 0.00 now\n"
                                    "pip: income from recoveries in 2026: -5.00 before, 0.00 now\n"
                                    "pip: late cost: 0.00 before, 40.00 now\n"
                                    "pip: late cost in 2026: -40.00 before, 0.00 now\n"
                                    "pip: recovered after its end: 0.00 before, 5.00 now\n"
                                    "pip: recovered before its end: 5.00 before, 0.00 now\n"));
    // What its export makes, and what mend does, shows the same.
    const RestoreWith with{shop.now, shop.today, [](const Book&) { return Appraise(); }, {}};
    const Exported exported = export_to(shop.book(), shop.folder() / "out", true, shop.today, {}, &with);
    CHECK(exported.apart.empty());
    restore(shop.folder() / "out", shop.folder() / "again.book", with);
    CHECK(told(Book::open(shop.folder() / "again.book")) == as_it_is);
  }
}

TEST_CASE("a day under which a car ended that somebody put beside an entry of before is found",
          "[book][migration]") {
  Shop shop;
  sold_and_put_right(shop);
  as_kept_before(shop, Kept::not_at_all);
  shop.reopen();
  const std::string keeps =
      *first<std::string>(shop.book(), "SELECT sql FROM sqlite_schema WHERE name = 'ended_keeps'", {});
  const EntryId last = last_entry(shop.book());
  shop.close();
  behind_its_back(shop.file(), "DROP TRIGGER ended_keeps; UPDATE ended SET day = '2025-12-01';" + keeps);
  shop.reopen();
  CHECK(shop.health().findings ==
        std::vector<std::string>{fmt::format("entry {}: what is kept beside it is not what it says", last)});
}

// What a year's report is made of stays as it was handed over.
#include "book/questions/period.h"

#include <catch2/catch.hpp>

#include "book/events/correct.h"
#include "book/fixture.h"
#include "book/ledger/settings.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

Money moved(Shop& shop, const std::string& kind, const std::string& from, const std::string& to) {
  Money sum;
  for (const AccountMovement& each : movements(shop.book(), on(from), on(to)))
    if (each.kind == kind) sum += each.sum;
  return sum;
}

}  // namespace

TEST_CASE(
    "a sale that falls through in the next year stays in the year of the sale, and goes back in the next",
    "[book]") {
  Shop shop;
  shop.today = Day(2026, 3, 1);
  shop.post(R"({ do = "buy", date = 2025-11-02, vehicle = "pip", price = 1000.00, purse = "cash" },
               { do = "hours", date = 2025-11-05, vehicle = "pip", operation = "pump", own = 4 },
               { do = "sell", date = 2025-12-20, vehicle = "pip", price = 2000.00, purse = "cash" })");
  shop.record([](Recording& recording) { close(recording, on("2025-12-31")); });
  shop.post(R"({ do = "void", date = 2026-01-10, entry = 3, why = "fell through" },
               { do = "void", date = 2026-01-10, entry = 2, why = "another car" })");
  CHECK(moved(shop, account::sales, "2025-01-01", "2025-12-31") == usd("-2000"));
  CHECK(moved(shop, account::cost_of_sale, "2025-01-01", "2025-12-31") == usd("1000"));
  CHECK(moved(shop, account::purse, "2025-01-01", "2025-12-31") == usd("1000"));
  CHECK(sales(shop.book(), on("2025-01-01"), on("2025-12-31")).size() == 1);
  CHECK(own_hours(shop.book(), "pip", on("2025-01-01"), on("2025-12-31")).shown() == "4");
  // In 2026 both go back: the car is in the inventory again, at its cost.
  CHECK(moved(shop, account::sales, "2026-01-01", "2026-12-31") == usd("2000"));
  CHECK(moved(shop, account::cost_of_sale, "2026-01-01", "2026-12-31") == usd("-1000"));
  CHECK(moved(shop, account::vehicle_cost, "2026-01-01", "2026-12-31") == usd("1000"));
  for (const AccountMovement& each : movements(shop.book(), on("2026-01-01"), on("2026-12-31")))
    if (each.kind == account::vehicle_cost) CHECK(each.closing == usd("1000"));
  CHECK(sales(shop.book(), on("2026-01-01"), on("2026-12-31")).empty());
  CHECK(own_hours(shop.book(), "pip", on("2026-01-01"), on("2026-12-31")).shown() == "-4");
  // Over both years neither counts.
  CHECK(moved(shop, account::sales, "2025-01-01", "2026-12-31") == Money{});
  CHECK(sales(shop.book(), on("2025-01-01"), on("2026-12-31")).empty());
  CHECK(own_hours(shop.book(), "pip", on("2025-01-01"), on("2026-12-31")) == Hours{});
}

TEST_CASE("what is taken back within the period is not in it, nor its reversal", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 500.00 },
               { do = "owner in", date = 2025-03-02, purse = "cash", amount = 50.00 },
               { do = "void", date = 2025-03-09, entry = 2, why = "twice" },
               { do = "void", date = 2025-04-02, later = true, entry = 1, why = "given back" })");
  const auto march = movements(shop.book(), on("2025-03-01"), on("2025-03-31"));
  REQUIRE(march.size() == 2);
  CHECK(march[0].sum == -march[1].sum);
  CHECK(moved(shop, account::purse, "2025-03-01", "2025-03-31") == usd("500"));
  CHECK(moved(shop, account::purse, "2025-04-01", "2025-04-30") == usd("-500"));
  CHECK(movements(shop.book(), on("2025-03-01"), on("2025-04-30")).empty());
  CHECK(shop.refusal(R"({ do = "owner in", date = 2025-03-05, purse = "cash", amount = 5.00 },
                        { do = "void", date = 2025-03-04, later = true, entry = 5, why = "x" })") ==
        "void: the day 2025-03-04 lies before that of entry 5, 2025-03-05; expected that day or a later one");
}

TEST_CASE("a trip and a cost without a paper of a closed year, put right: the years join", "[book]") {
  Shop shop;
  shop.today = Day(2026, 3, 1);
  shop.post(R"({ do = "trip", date = 2025-11-02, vehicle = "pip", distance = 40, why = "view" },
               { do = "receipt", date = 2025-11-03, paid = { cash = 20.00 }, paper = false, total = 20.00, line = [
                 { what = "clips", amount = 20.00, kind = "part", to = "pip" } ] })");
  shop.record([](Recording& recording) { close(recording, on("2025-12-31")); });
  const auto right = [&](EntryId entry, const char* amount) {
    Correction correction;
    correction.entry = entry;
    correction.amount = amount;
    EntryId made = 0;
    shop.record([&](Recording& recording) { made = correct(recording, correction).entry; });
    return made;
  };
  const EntryId way = right(1, "50"), clips = right(right(2, "25.00"), "26.00");
  const auto driven = trips(shop.book(), on("2026-01-01"), on("2026-12-31"));
  REQUIRE(driven.size() == 2);
  CHECK(driven[0].taken_back);
  CHECK(driven[0].distance.shown() == "-40");
  CHECK(driven[0].why == "view");
  CHECK(driven[1].entry == way);
  CHECK(driven[1].distance.shown() == "50");
  CHECK(trips(shop.book(), on("2025-01-01"), on("2025-12-31")).at(0).distance.shown() == "40");
  // Over both it stands once, as it is now.
  const auto both = trips(shop.book(), on("2025-01-01"), on("2026-12-31"));
  REQUIRE(both.size() == 1);
  CHECK(both[0].distance.shown() == "50");

  const auto none = without_paper(shop.book(), on("2026-01-01"), on("2026-12-31"));
  REQUIRE(none.size() == 2);
  CHECK(none[0].amount == usd("-20"));
  CHECK(none[1].amount == usd("26"));
  CHECK(none[1].entry == clips);
  // One thing was bought, and in 2025.
  CHECK((none[0].of_before && none[1].of_before));
  CHECK(without_paper(shop.book(), on("2025-01-01"), on("2025-12-31")).at(0).amount == usd("20"));
  CHECK_FALSE(without_paper(shop.book(), on("2025-01-01"), on("2025-12-31")).at(0).of_before);
}

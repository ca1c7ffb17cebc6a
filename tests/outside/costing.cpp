// Costing against worked examples of a textbook: M. Franklin, P. Graybeal and D. Cooper, Principles of
// Accounting, volumes 1 and 2 (OpenStax, 2019). Figures read in the source and recomputed; the section stands
// beside each.
#include "book/fixture.h"
#include "book/questions/figures.h"
#include "exact/rate.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

class Books : public Shop {
 public:
  Books() {
    today = Day(2026, 1, 1);
    now = "2026-01-01T00:00:00Z";
  }
  std::string stock_value() { return text(balances(book(), account::stock).front().amount); }
  std::string text(Money money) { return money.plain(book().currency()); }
};

}  // namespace

TEST_CASE(
    "a job cost sheet: materials, labour and overhead make the job's cost, and the sale its gross profit",
    "[book][outside]") {
  // Volume 2, sections 4.2, 4.5 and 4.7 (billboard job): materials 700, labour 66, overhead 2.50 a labour
  // dollar = 165; 931; sold for 2000, gross profit 1069. The billboard is a car here; overhead applied is a
  // fee.
  Books shop;
  shop.post(R"(
  { do = "owner in", date = 2025-01-01, purse = "cash", amount = 5000 },
  { do = "buy", date = 2025-01-01, vehicle = "billboard", price = 0, purse = "cash" },
  { do = "receipt", date = 2025-01-02, supplier = "Storeroom", number = "1", paid = "cash", total = 700, line = [
    { what = "vinyl", qty = 1, unit = 300, kind = "part", to = "billboard" },
    { what = "black ink", qty = 2, unit = 50, kind = "consumable", to = "billboard" },
    { what = "red ink", qty = 1, unit = 60, kind = "consumable", to = "billboard" },
    { what = "gold ink", qty = 1, unit = 60, kind = "consumable", to = "billboard" },
    { what = "grommets", qty = 12, unit = 10, kind = "part", to = "billboard" },
    { what = "wood", qty = 40, unit = 1.50, kind = "part", to = "billboard" },
  ] },
  { do = "hours", date = 2025-01-03, vehicle = "billboard", operation = "handling", paid = 1, rate = 15, purse = "cash" },
  { do = "hours", date = 2025-01-03, vehicle = "billboard", operation = "printing", paid = 1, rate = 15, purse = "cash" },
  { do = "hours", date = 2025-01-03, vehicle = "billboard", operation = "assisting", paid = 2, rate = 18, purse = "cash" },
  { do = "receipt", date = 2025-01-04, supplier = "Overhead applied", number = "1", paid = "cash", total = 165, line = [
    { what = "2.50 a labour dollar", qty = 66, unit = 2.5, kind = "fee", to = "billboard" } ] })");
  CHECK(shop.text(shop.show("billboard").cost) == "931.00");
  shop.post(R"({ do = "sell", date = 2025-01-05, vehicle = "billboard", price = 2000, purse = "cash" })");
  CHECK(shop.text(*shop.show("billboard").cash_profit) == "1069.00");
  CHECK_THAT(*shop.show("billboard").margin, Catch::WithinAbs(1069.0 / 2000, 1e-12));
}

TEST_CASE("the perpetual moving average carries the value, not a rounded unit cost", "[book][outside]") {
  // Volume 1, section 10.3: buy 150 at 21, sell 120, buy 225 at 27, sell 180, buy 210 at 33. The text prints
  // 7253 and 8902; exactly 7252.94 and 8902.06. Keeping the rounded unit cost 31.24 would give 285 x 31.24 =
  // 8903.40.
  Books shop;
  shop.post(R"(
  { do = "owner in", date = 2025-07-01, purse = "cash", amount = 20000 },
  { do = "receipt", date = 2025-07-01, supplier = "Maker", number = "1", paid = "cash", total = 3150, line = [{ what = "device", qty = 150, unit = 21, kind = "stock", stock = "device" }] },
  { do = "draw", date = 2025-07-05, vehicle = "job", stock = "device", qty = 120 },
  { do = "receipt", date = 2025-07-10, supplier = "Maker", number = "2", paid = "cash", total = 6075, line = [{ what = "device", qty = 225, unit = 27, kind = "stock", stock = "device" }] },
  { do = "draw", date = 2025-07-15, vehicle = "job", stock = "device", qty = 180 },
  { do = "receipt", date = 2025-07-25, supplier = "Maker", number = "3", paid = "cash", total = 6930, line = [{ what = "device", qty = 210, unit = 33, kind = "stock", stock = "device" }] })");
  CHECK(shop.text(shop.show("job").cost) == "7252.94");
  CHECK(shop.stock_value() == "8902.06");
}

TEST_CASE("break-even: the price at which nothing is left after a variable share and what is fixed",
          "[book][outside]") {
  // Volume 2, section 3.2: contribution margin ratio 0.8, fixed 18000: break-even sales 22500; with a target
  // profit of 16000, 42500; of 40000 before tax (24000 after 40 %), 72500. A commission of 20 % of the price
  // is the variable share.
  const Rate variable = Rate::parse("0.2");
  const auto dollars = [](std::int64_t whole) { return Money::of_minor(whole * 100); };
  CHECK(variable.grossed_up(dollars(18000)) == dollars(22500));
  CHECK(variable.grossed_up(dollars(18000 + 16000)) == dollars(42500));
  CHECK(variable.grossed_up(dollars(18000 + 40000)) == dollars(72500));
  // Section 3.5 (margin of safety): fixed 85000, contribution 50 of 90: break-even 1700 units, 153000; sales
  // 225000 leave 72000, 32 %. 4/9 of the price is variable, and has no exact decimal: the price is found to
  // the cent above.
  const Money break_even = Rate::parse("0.444444444").grossed_up(dollars(85000));
  CHECK(break_even <= dollars(153000));
  CHECK(dollars(153000) - break_even < Money::of_minor(20));
  CHECK_THAT(static_cast<double>((dollars(225000) - dollars(153000)).minor()) / 22500000.0,
             Catch::WithinAbs(0.32, 1e-12));
}

TEST_CASE("specific identification: each car carries its own cost", "[book][outside]") {
  // Volume 1, section 10.3: sold 120 at 21, 20 at 21 and 160 at 27: cost of sales 7260; closing stock 8895
  // (10 at 21, 65 at 27, 210 at 33); sales 11340 leave 4080. Each batch is a car here.
  Books shop;
  shop.post(R"(
  { do = "owner in", date = 2025-07-01, purse = "cash", amount = 20000 },
  { do = "buy", date = 2025-07-01, vehicle = "sold-a", price = 2940, purse = "cash" },
  { do = "buy", date = 2025-07-01, vehicle = "sold-b", price = 4320, purse = "cash" },
  { do = "buy", date = 2025-07-01, vehicle = "left", price = 8895, purse = "cash" },
  { do = "sell", date = 2025-07-20, vehicle = "sold-a", price = 5292, purse = "cash" },
  { do = "sell", date = 2025-07-20, vehicle = "sold-b", price = 6048, purse = "cash" })");
  CHECK(shop.text(*shop.show("sold-a").cash_profit + *shop.show("sold-b").cash_profit) == "4080.00");
  CHECK(shop.text(shop.show("left").carried) == "8895.00");
}

// Inventory, returns and deposits against what standards and a textbook say.
//
// Textbook: M. Franklin, P. Graybeal and D. Cooper, Principles of Accounting, volume 1 (OpenStax, 2019).
// Section 10.3 (flows of costs) was read in the source; what is said of section 6.3 (purchase returns), and
// of the standards IAS 2 and IFRS 15, is from memory: the paragraphs were not looked up.
#include <catch2/catch.hpp>

#include "answers/year.h"
#include "book/fixture.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

struct Goods {
  Money opening, added, closing, cost_of_sales;
};
Goods goods_of(const Shop& shop, const Book& book, int year) {
  Goods all;
  for (const figures::YearVehicle& car : answers::year_figures(book, year, shop.today).vehicles) {
    all.opening += car.opening;
    all.added += car.added;
    all.closing += car.closing;
    all.cost_of_sales += car.cost_of_sales;
  }
  return all;
}

}  // namespace

TEST_CASE("opening inventory and purchases less closing inventory are the cost of goods sold, year by year",
          "[book][outside]") {
  // Section 10.3, specific identification: 150 at 21, 225 at 27 and 210 at 33 are 16,155 to sell; 140 at 21
  // and 160 at 27 were sold: cost of sales 7,260, closing 8,895, sales 11,340, gross margin 4,080. Each batch
  // is a car here, and the first was bought in the year before, so that there is an opening inventory of
  // 3,150.
  Shop shop;
  shop.today = on("2026-12-31");
  shop.post(R"(
  { do = "owner in", date = 2024-12-01, purse = "cash", amount = 20000 },
  { do = "buy", date = 2024-12-02, vehicle = "first-sold", price = 2940, purse = "cash" },
  { do = "buy", date = 2024-12-02, vehicle = "first-left", price = 210, purse = "cash" },
  { do = "buy", date = 2025-07-10, vehicle = "second-sold", price = 4320, purse = "cash" },
  { do = "buy", date = 2025-07-10, vehicle = "second-left", price = 1755, purse = "cash" },
  { do = "buy", date = 2025-07-25, vehicle = "third-left", price = 6930, purse = "cash" },
  { do = "sell", date = 2025-07-20, vehicle = "first-sold", price = 5292, purse = "cash" },
  { do = "sell", date = 2025-07-20, vehicle = "second-sold", price = 6048, purse = "cash" })");
  const Goods before = goods_of(shop, shop.book(), 2024), sold = goods_of(shop, shop.book(), 2025),
              after = goods_of(shop, shop.book(), 2026);
  CHECK(before.closing == usd("3150"));
  CHECK(sold.opening == usd("3150"));
  CHECK(sold.added == usd("13005"));
  CHECK(sold.closing == usd("8895"));
  CHECK(sold.cost_of_sales == usd("7260"));
  CHECK(after.opening == usd("8895"));
  CHECK(answers::year_figures(shop.book(), 2025, shop.today).result == usd("4080"));
}

TEST_CASE(
    "goods returned to the supplier leave the inventory at what was paid for them, and the average is of the "
    "rest",
    "[book][outside]") {
  // Section 6.3 (from memory): 300 phones bought at 60 each; 25 of the wrong colour are returned for a full
  // refund: cash 1,500, merchandise inventory 1,500. Here 100 at 48 lie on the shelf before them: 4,800 +
  // 18,000
  // - 1,500 = 21,300 for 375 pieces, an average of 56.80, and neither gain nor loss. Taken off at the average
  // of all (57.00) the shelf would say 21,375 and the shop a gain of 75 for returning goods. IAS 2.25 and 27
  // (from memory): weighted average as each shipment comes; IAS 2.11: what is taken off the price is no cost.
  Shop shop;
  shop.post(R"(
  { do = "owner in", date = 2025-06-01, purse = "cash", amount = 30000 },
  { do = "receipt", date = 2025-06-01, supplier = "Maker", number = "1", paid = "cash", total = 4800, line = [{ what = "phone", qty = 100, unit = 48, kind = "stock", stock = "phone" }] },
  { do = "receipt", date = 2025-06-02, supplier = "Maker", number = "2", paid = "cash", total = 18000, line = [{ id = "june", what = "phone", qty = 300, unit = 60, kind = "stock", stock = "phone" }] },
  { do = "return", date = 2025-06-03, line = "june", qty = 25, goods = 1500, tax = 0, purse = "cash" },
  { do = "draw", date = 2025-06-04, vehicle = "job", stock = "phone", qty = 10 })");
  CHECK(shop.balance(account::overhead) == Money{});
  CHECK(shop.show("job").cost == usd("568.00"));
  CHECK(shop.shelf("phone").amount == usd("20732.00"));
  CHECK(shop.purse("cash") == usd("8700.00"));
}

TEST_CASE("what is returned after a year was reported is shown apart from what was sold", "[book][outside]") {
  // Sales returns and allowances stand beside sales, which keep what was sold (textbook, volume 1, chapter 6; IFRS
  // 15.B20 to B27 for a right of return: both from memory). A car of December sold at 1,500 comes back in January
  // and is sold again at 1,400: the first year keeps its sale, the second shows 1,400 sold and 1,500 returned. One
  // sold at 300 and returned within the second year stands on both lines as well.
  Shop shop;
  shop.today = on("2025-12-31");
  shop.post(R"(
  { do = "buy", date = 2024-06-01, vehicle = "pip", price = 1000, purse = "cash" },
  { do = "sell", date = 2024-12-20, vehicle = "pip", price = 1500, purse = "cash" },
  { do = "void", date = 2025-01-05, entry = 2, why = "the buyer brought it back", later = true },
  { do = "sell", date = 2025-02-01, vehicle = "pip", price = 1400, purse = "cash" },
  { do = "buy", date = 2025-03-01, vehicle = "wren", price = 100, purse = "cash" },
  { do = "sell", date = 2025-04-01, vehicle = "wren", price = 300, purse = "cash" },
  { do = "void", date = 2025-04-20, entry = 6, why = "the buyer brought it back", later = true })");
  const auto sold = [&](int year) {
    Money all;
    for (const figures::YearVehicle& car : answers::year_figures(shop.book(), year, shop.today).vehicles)
      all += car.sales;
    return all;
  };
  const auto returned = [&](int year) {
    return answers::year_figures(shop.book(), year, shop.today).sales_returned;
  };
  CHECK(sold(2024) == usd("1500"));
  CHECK(returned(2024) == Money{});
  CHECK(sold(2025) == usd("-100"));
  CHECK(returned(2025) == usd("1800"));
  CHECK(sold(2025) + returned(2025) == usd("1700"));  // 1,400 and 300
}

TEST_CASE("a customer's deposit is a liability until the sale, and then part of its price",
          "[book][outside]") {
  // IFRS 15.106 and its example 38 (from memory): a customer pays 1,000 on 1 March for what is handed over on
  // 31 March: cash 1,000 and contract liability 1,000; on 31 March contract liability 1,000 and revenue
  // 1,000.
  Shop shop;
  shop.today = on("2025-12-31");
  shop.post(R"(
  { do = "buy", date = 2025-01-02, vehicle = "pip", price = 600, purse = "cash" },
  { do = "buyer deposit", date = 2025-03-01, vehicle = "pip", amount = 1000, purse = "cash" },
  { do = "sell", date = 2025-03-31, vehicle = "pip", price = 1000, deposit_used = 1000, purse = "cash" })");
  CHECK(shop.balance(account::buyer_deposit, "pip", on("2025-03-30")) == usd("-1000"));
  CHECK(shop.show("pip", on("2025-03-30")).sales == Money{});
  CHECK(shop.show("pip", on("2025-03-30")).deposit_held == usd("1000"));
  CHECK(shop.purse("cash", on("2025-03-30")) == usd("400"));
  CHECK(shop.balance(account::buyer_deposit, "pip", on("2025-03-31")) == Money{});
  CHECK(shop.show("pip", on("2025-03-31")).sales == usd("1000"));
  CHECK(shop.purse("cash", on("2025-03-31")) == usd("400"));
}

TEST_CASE(
    "what is put up as security is no cost: a core deposit that comes back leaves the inventory as it was",
    "[book][outside]") {
  // IAS 2.10 and 11 (from memory): cost is what was paid for the goods; a refundable amount is a receivable.
  // Of one that does not come back what is lost is cost.
  Shop shop;
  shop.post(R"(
  { do = "receipt", date = 2025-06-01, supplier = "Maker", number = "1", paid = "cash", total = 64, line = [{ id = "pump", what = "pump", unit = 46, core = 9, qty = 1, kind = "part", to = "pip" },
    { id = "hub", what = "hub", unit = 0, core = 9, qty = 1, kind = "part", to = "pip" }] },
  { do = "core back", date = 2025-06-04, line = "pump", qty = 1, amount = 9, purse = "cash" },
  { do = "core back", date = 2025-06-05, line = "hub", qty = 1, amount = 4, purse = "cash" })");
  CHECK(shop.show("pip", on("2025-06-03")).cost == usd("46"));
  Money out;
  for (const Due& due : shop.due(on("2025-06-03"))) out += due.amount;
  CHECK(out == usd("18"));
  CHECK(shop.show("pip", on("2025-06-04")).cost == usd("46"));
  CHECK(shop.show("pip", on("2025-06-05")).cost == usd("51"));
}

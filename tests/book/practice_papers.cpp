// What comes in by papers, as stories: quick lines, shared lines, purses, the shelf, tools, moves between cars; every figure
// worked out by hand beside it. Common practice, no source.
#include "book/events/post.h"
#include "book/questions/board.h"
#include "book/questions/journal.h"
#include "book/questions/period.h"
#include "book/questions/vehicle_money.h"
#include "book/walk.h"
#include "words/due.h"

using namespace nonrunner;
using namespace nonrunner::book;

TEST_CASE("a quick line counts at once, and the full paper takes its place without counting twice",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "cash" },
               { do = "receipt", date = 2025-03-02, paid = { cash = 45.00 }, total = 45.00, itemised = false,
                 line = [{ what = "radiator, I think", amount = 45.00, kind = "part", to = "pip" }] })");
  CHECK(shop.show("pip").cost == usd("545"));
  CHECK(shop.show("pip").waiting == std::vector<EntryId>{2});
  REQUIRE(tray(shop.book()).size() == 1);
  CHECK(tray(shop.book()).front().what == "radiator, I think");

  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Cleave Yard", number = "88", replaces = 2, paid = { cash = 45.00 },
                 tax = 3.00, total = 45.00, line = [
                 { what = "radiator", unit = 30.00, kind = "part", to = "pip", taxed = true },
                 { what = "work gloves", unit = 12.00, kind = "tool" }] })");
  CHECK(tray(shop.book()).empty());
  CHECK(shop.show("pip").cost == usd("533"));  // 500 + 30 + 3 tax; the gloves are the shop's
  CHECK(shop.balance("tools") == usd("12"));
  CHECK(shop.purse("cash") == usd("-545"));  // paid once
}

TEST_CASE("a quick line without a paper waits for none: the car is final, the year lists it", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "cash" },
               { do = "receipt", date = 2025-03-02, paid = "cash", total = 45.00, itemised = false, paper = false,
                 line = [{ what = "radiator", amount = 45.00, kind = "part", to = "pip" }] },
               { do = "sell", date = 2025-04-01, vehicle = "pip", price = 900.00, purse = "cash" })");
  CHECK(tray(shop.book()).empty());
  CHECK(tray(shop.book(), on("2025-03-31"), "pip").empty());
  CHECK(shop.show("pip").final);
  const auto listed = without_paper(shop.book(), on("2025-01-01"), on("2025-12-31"));
  REQUIRE(listed.size() == 1);
  CHECK(listed.front().entry == 2);
  CHECK(journal(shop.book(), "pip")[1].what == "radiator, no paper");
}

TEST_CASE("the full paper for a car sold since takes the place of its quick line from that day on",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "cash" },
               { do = "receipt", date = 2025-03-02, paid = { cash = 45.00 }, total = 45.00, itemised = false,
                 line = [{ what = "radiator", amount = 45.00, kind = "part", to = "pip" }] },
               { do = "sell", date = 2025-04-01, vehicle = "pip", price = 900.00, purse = "cash" })");
  CHECK(shop.show("pip").cash_profit == usd("355"));
  CHECK_FALSE(shop.show("pip").final);  // the quick line still waits
  // The paper says 52.00: the radiator was 45.00 and a hose came with it.
  shop.post(
      R"({ do = "receipt", date = 2025-04-02, supplier = "Cleave Yard", number = "88", replaces = 2, paid = { cash = 52.00 }, total = 52.00,
                 line = [{ what = "radiator", unit = 45.00, kind = "part", to = "pip" },
                         { what = "hose", unit = 7.00, kind = "part", to = "pip" }] })");
  const VehicleFigures pip = shop.show("pip");
  CHECK(pip.cost == usd("552"));
  CHECK(pip.late_cost == Money{});
  CHECK(pip.carried == Money{});
  CHECK(pip.cash_profit == usd("348"));
  CHECK(pip.first_cash_profit == usd("348"));
  CHECK(shop.purse("cash", on("2025-03-02")) == usd("-552"));
  CHECK(pip.final);
  CHECK(board(shop.book(), shop.today).front().cash_profit == usd("348"));
  CHECK(shop.purse("cash") == usd("348"));
}

TEST_CASE("a line for several cars is shared by weight and no cent is lost", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-01, supplier = "Cleave Yard", paid = "cash", shipping = 1.00, total = 11.00, line = [
                 { what = "yard entrance", amount = 10.00, kind = "fee", share = { pip = 1, teal = 1, wren = 1 } }] })");
  CHECK(shop.show("pip").cost ==
        usd("3.67"));  // 11.00 in three: 3.666..., the spare cents to the earlier ones
  CHECK(shop.show("teal").cost == usd("3.67"));
  CHECK(shop.show("wren").cost == usd("3.66"));
  shop.post(
      R"({ do = "receipt", date = 2025-03-01, supplier = "Cleave Yard", paid = "cash", total = 10.00, line = [
                 { what = "trailer", amount = 10.00, kind = "fee", share = { pip = 2, teal = 0.5 } }] })");
  CHECK(shop.show("pip").cost == usd("11.67"));  // 8.00 of it
  CHECK(shop.show("teal").cost == usd("5.67"));
}

TEST_CASE("one paper is paid from two purses, yard credit first", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-03-01, purse = "yard-credit", amount = 20.00 },
               { do = "receipt", date = 2025-03-02, supplier = "Cleave Yard", paid = { yard-credit = 20.00, cash = 14.00 }, total = 34.00,
                 line = [{ what = "alternator", unit = 34.00, kind = "part", to = "pip" }] })");
  CHECK(shop.purse("yard-credit") == Money{});
  CHECK(shop.purse("cash") == usd("-14"));
}

TEST_CASE("a private thing on the paper goes to the owner, a coupon lowers the line's car", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", tax = 1.40, total = 28.90, line = [
                 { what = "lamp", unit = 25.00, kind = "part", to = "pip", taxed = true },
                 { what = "coupon", amount = -5.00, kind = "part", to = "pip", taxed = true },
                 { what = "a bag of crisps", unit = 7.50, kind = "private" }] })");
  CHECK(shop.show("pip").cost == usd("21.40"));  // 25 - 5 + 7 % of 20
  CHECK(shop.balance("owner") == usd("7.50"));   // taken out of the shop
}

TEST_CASE("stock is bought in boxes and used in pieces, at the moving average", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", paid = "cash", total = 24.00, line = [
                 { what = "gloves, box of 100", qty = 2, unit = 12.00, kind = "stock", stock = "gloves", gives = 100 }] })");
  CHECK(shop.shelf("gloves").quantity == Quantity::parse("200"));
  shop.post(R"({ do = "draw", date = 2025-03-02, vehicle = "pip", stock = "gloves", qty = 10 })");
  CHECK(shop.show("pip").cost == usd("1.20"));
  // A dearer box: 190 pieces at 22.80 and 100 at 18.70 make 290 at 41.50; ten of them cost 1.431...
  shop.post(
      R"({ do = "receipt", date = 2025-03-03, supplier = "Harrow", paid = "cash", total = 18.70, line = [
                 { what = "gloves, box of 100", unit = 18.70, kind = "stock", stock = "gloves", gives = 100 }] },
               { do = "draw", date = 2025-03-04, vehicle = "pip", stock = "gloves", qty = 10 })");
  CHECK(shop.show("pip").cost == usd("2.63"));
  CHECK(shop.shelf("gloves").amount == usd("40.07"));
  // Twenty are missing: 40.07 x 20 / 280 = 2.862... is the shop's loss, and the last ones take what is left.
  shop.post(R"({ do = "count", date = 2025-03-05, stock = "gloves", qty = 260 },
               { do = "draw", date = 2025-03-06, vehicle = "pip", stock = "gloves", qty = 260 })");
  CHECK(shop.balance("overhead") == usd("2.86"));
  CHECK(shop.show("pip").cost == usd("39.84"));
  CHECK(shop.shelf("gloves").amount == Money{});
}

TEST_CASE("a paper on account is owed, and paid later in parts", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", number = "12", on_account = true, paid = { cash = 20.00 }, total = 120.00,
                 line = [{ what = "clutch", unit = 120.00, kind = "part", to = "pip" }] })");
  CHECK(shop.show("pip").cost == usd("120"));
  CHECK(shop.balance("payable", "Harrow") == usd("-100"));
  shop.post(R"({ do = "pay", date = 2025-03-15, supplier = "Harrow", amount = 70.00, purse = "bank" },
               { do = "pay", date = 2025-03-31, supplier = "Harrow", amount = 30.00, purse = "cash" })");
  CHECK(shop.balance("payable", "Harrow") == Money{});
  CHECK(shop.balance("payable", "Harrow", on("2025-03-15")) == usd("-30"));
  CHECK(shop.purse("bank") == usd("-70"));
}

TEST_CASE("parts move between cars at cost, and from a car to the shelf", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "gull", price = 400.00, purse = "cash" },
               { do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "cash" },
               { do = "transfer", date = 2025-03-02, from = "gull", to = "pip", what = "starter", amount = 35.00 },
               { do = "shelve", date = 2025-03-03, vehicle = "gull", what = "wheels", amount = 80.00, stock = "wheel", qty = 4 },
               { do = "draw", date = 2025-03-04, vehicle = "pip", stock = "wheel", qty = 1 })");
  CHECK(shop.show("gull").carried == usd("285"));
  CHECK(shop.show("pip").carried == usd("555"));
  CHECK(shop.shelf("wheel").amount == usd("60"));
  CHECK(shop.purse("cash") == usd("-900"));
}

TEST_CASE("a tool is not the car's cost unless it is charged to it by hand", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", paid = "cash", total = 50.00, line = [
                 { what = "torque wrench", unit = 30.00, kind = "tool" },
                 { what = "one-way socket", unit = 20.00, kind = "tool", to = "pip" }] })");
  CHECK(shop.balance("tools") == usd("30"));
  CHECK(shop.show("pip").cost == usd("20"));
  shop.post(
      R"({ do = "transfer", date = 2025-03-02, from = "tools", to = "pip", what = "wrench", amount = 12.00 })");
  CHECK(shop.balance("tools") == usd("18"));
  CHECK(shop.show("pip").cost == usd("32"));
  CHECK(money_of(shop.book(), "pip").back().what == "wrench");
  CHECK(
      shop.refusal(
          R"({ do = "transfer", date = 2025-03-02, from = "tools", to = "pip", what = "wrench", amount = 18.01 })") ==
      "transfer: 18.01 off tools, which carries a cost of 18.00; expected at most that");
  CHECK(shop.refusal(R"({ do = "void", date = 2025-03-03, entry = 1, why = "typed twice" })") ==
        "void: what entry 1 brought to the tools is used already, by entry 2 (transfer); void that first: "
        "nonrunner void 2 "
        "--why \"...\"");
}

TEST_CASE("a full paper that comes after the sale changes the first result: it stands from its quick line on",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "cash" },
               { do = "receipt", date = 2025-03-02, paid = { cash = 101.00 }, total = 101.00, itemised = false,
                 line = [{ what = "parts", amount = 101.00, kind = "part", to = "pip" }] },
               { do = "sell", date = 2025-04-01, vehicle = "pip", price = 1000.00, purse = "cash" },
               { do = "receipt", date = 2025-03-02, supplier = "Cleave Yard", replaces = 2, paid = { cash = 96.93 }, total = 96.93, line = [
                 { what = "pump", unit = 84.93, core = 12.00, kind = "part", to = "pip" }] })");
  const VehicleFigures pip = shop.show("pip");
  CHECK(pip.first_cash_profit == usd("415.07"));
  CHECK(pip.late_cost == Money{});
  Money first, later;
  std::vector<std::string> what;
  for (const MoneyLine& line : money_of(shop.book(), "pip")) {
    if (line.kind == MoneyKind::due_back) continue;
    (line.after_sale ? later : first) += line.amount;
    what.push_back(line.what + (line.after_sale ? ", after it" : ""));
  }
  CHECK(what == std::vector<std::string>{"price paid", "pump", "sale price"});
  CHECK(first == usd("415.07"));
  CHECK(later == Money{});
}

// What real life brings, as stories; every figure worked out by hand beside it. Common practice, no source.
#include <fstream>

#include "book/events/post.h"
#include "book/events/sell.h"
#include "book/ledger/settings.h"
#include "book/questions/board.h"
#include "book/questions/journal.h"
#include "book/questions/period.h"
#include "book/questions/vehicle_money.h"
#include "book/walk.h"
#include "words/due.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

BoardRow on_board(Shop& shop, const std::string& tag) {
  for (const BoardRow& row : board(shop.book(), shop.today))
    if (row.tag == tag) return row;
  return {};
}

}  // namespace

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
  CHECK(on_board(shop, "pip").cash_profit == usd("348"));
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

TEST_CASE("an old part handed over the counter settles its deposit on the next paper", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", total = 35.00, line = [
                 { id = "rack", what = "rack", unit = 20.00, core = 15.00, kind = "part", to = "pip" }] })");
  CHECK(shop.due().size() == 1);
  shop.post(
      R"({ do = "receipt", date = 2025-03-09, supplier = "Harrow", paid = "cash", total = -2.00, line = [
                 { what = "grease", unit = 11.00, kind = "consumable", to = "pip" },
                 { what = "old rack", amount = -13.00, core_of = "rack" }] })");
  CHECK(shop.due().empty());
  CHECK(shop.show("pip").cost == usd("33"));  // 20 + 11 + 2 that the shop kept of the deposit
  CHECK(shop.purse("cash") == usd("-33"));
}

TEST_CASE("tax that was charged on a deposit comes back with the deposit and never is cost", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", tax = 3.50, total = 53.50, line = [
                 { id = "rack", what = "rack", unit = 30.00, core = 20.00, kind = "part", to = "pip", taxed = true, tax_on_core = true }] })");
  CHECK(shop.show("pip").cost == usd("32.10"));  // 30 + 7 %
  REQUIRE(shop.due().size() == 1);
  CHECK(shop.due().front().amount == usd("21.40"));  // 20 + 7 %
  shop.post(R"({ do = "core back", date = 2025-03-09, line = "rack", amount = 21.40, purse = "cash" })");
  CHECK(shop.show("pip").cost == usd("32.10"));
  CHECK(shop.due().empty());
}

TEST_CASE("a core that comes back short, late or never leaves its gap as cost of the car", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 100.00, purse = "cash" },
               { do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", total = 65.00, line = [
                 { id = "rack", what = "rack", unit = 20.00, core = 15.00, kind = "part", to = "pip" },
                 { id = "pump", what = "pump", unit = 20.00, core = 10.00, kind = "part", to = "pip" }] },
               { do = "core back", date = 2025-03-05, line = "rack", amount = 11.00, purse = "cash" },
               { do = "sell", date = 2025-04-01, vehicle = "pip", price = 300.00, purse = "cash" })");
  CHECK(shop.show("pip").cost == usd("144"));  // 100 + 40 + 4 short
  CHECK(shop.show("pip").cash_profit == usd("156"));
  CHECK_FALSE(shop.show("pip").final);
  shop.post(R"({ do = "core back", date = 2025-05-01, line = "pump", amount = 0 })");
  CHECK(shop.show("pip").late_cost == usd("10"));
  CHECK(shop.show("pip").cash_profit == usd("146"));
  CHECK(shop.show("pip").final);
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

TEST_CASE("what is due back is one list for all cars by last day, what has no day last", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-06-01, supplier = "Harrow", paid = "cash", total = 90.00, line = [
                 { id = "rack", what = "rack", unit = 30.00, core = 15.00, core_by = 2025-07-20, kind = "part", to = "pip" },
                 { id = "pump", what = "pump", unit = 20.00, core = 25.00, kind = "part", to = "teal" }] },
               { do = "receipt", date = 2025-06-02, supplier = "Millgate", paid = "cash", total = 28.00, line = [
                 { id = "turbo", what = "turbo", unit = 20.00, core = 8.00, core_by = 2025-06-28, kind = "part", to = "teal" }] },
               { do = "tool deposit", date = 2025-06-03, supplier = "Millgate", what = "puller", amount = 60.00, purse = "cash", back_by = 2025-07-01 },
               { do = "owner in", date = 2025-06-03, purse = "yard-credit", amount = 12.00 })");
  const std::vector<Due> due = shop.due();
  std::vector<std::string> what;
  Money sum;
  for (const Due& each : due) what.push_back(words::called(each)), sum += each.amount;
  CHECK(what == std::vector<std::string>{"core of turbo", "deposit on puller", "core of rack", "core of pump",
                                         "credit in the purse yard-credit"});
  CHECK(sum == usd("120"));
  CHECK(due[1].from == "Millgate");
  CHECK(due[1].by == on("2025-07-01"));
  CHECK(shop.due(on("2025-06-01")).size() == 2);
}

TEST_CASE("what may still go back is listed until its last day is over, with what it would bring", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-06-01, supplier = "Harrow", paid = "cash", tax = 1.00, total = 31.00, back_by = 2025-06-30, line = [
                 { id = "pads", what = "pads", qty = 3, unit = 10.00, kind = "part", to = "pip", taxed = true }] },
               { do = "return", date = 2025-06-10, line = "pads", qty = 1, goods = 10.00, tax = 0.33, purse = "cash" })");
  const auto may = may_go_back(shop.book(), on("2025-06-30"));
  REQUIRE(may.size() == 1);
  CHECK(may.front().line == "pads");
  CHECK(may.front().refund == usd("20.67"));  // the rest of the goods and of the tax
  CHECK(may_go_back(shop.book(), on("2025-07-01")).empty());
  // As it stood on other days: before the return, and before the purchase.
  CHECK(may_go_back(shop.book(), on("2025-06-09")).front().refund == usd("31"));
  CHECK(may_go_back(shop.book(), on("2025-05-31")).empty());
}

TEST_CASE("of one car its own lines may go back, each with its part of the refund", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-06-01, supplier = "Harrow", paid = "cash", tax = 0.00, total = 41.00, back_by = 2025-06-30, line = [
                 { id = "pads", what = "pads", qty = 3, unit = 10.00, kind = "part", share = { pip = 2, teal = 1 } },
                 { id = "lamp", what = "lamp", unit = 11.00, kind = "part", to = "teal" }] })");
  const auto pip = may_go_back(shop.book(), on("2025-06-30"), "pip");
  REQUIRE(pip.size() == 1);
  CHECK(pip.front().refund == usd("20"));
  CHECK(may_go_back(shop.book(), on("2025-06-30"), "teal").size() == 2);
  CHECK(may_go_back(shop.book(), on("2025-06-30")).front().refund == usd("30"));
}

TEST_CASE("a return with a restocking fee, without its tax, to another purse", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-06-01, supplier = "Harrow", paid = "card", tax = 2.10, total = 32.10, line = [
                 { id = "lamp", what = "lamp", unit = 30.00, kind = "part", to = "pip", taxed = true }] },
               { do = "return", date = 2025-06-10, line = "lamp", goods = 30.00, restocking = 4.50, purse = "yard-credit" })");
  CHECK(shop.purse("yard-credit") == usd("25.50"));
  CHECK(shop.purse("card") == usd("-32.10"));
  CHECK(shop.show("pip").cost == usd("6.60"));  // the fee and the tax stay with the car
}

TEST_CASE("a sale that fell through later is shown with its own first result on the days before", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "bank" },
               { do = "sell", date = 2025-03-25, vehicle = "pip", price = 1000.00, commission = 0.05, costs = [{ name = "advert", amount = 10.00 }], purse = "bank" },
               { do = "void", date = 2025-04-05, entry = 2, why = "the cheque bounced", later = true })");
  const VehicleFigures then = shop.show("pip", on("2025-03-31"));
  CHECK(then.cash_profit == usd("440"));
  CHECK(then.first_cash_profit == usd("440"));
}

TEST_CASE("cores that go back in steps leave nothing due, whichever step was taken back", "[book]") {
  Shop shop;
  // 1.00 of tax on three deposits goes 0.33, 0.34, 0.33.
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "cash" },
               { do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", tax = 1.00, total = 61.00, line = [
                 { id = "hub", what = "hub", qty = 3, amount = 0.00, core = 20.00, kind = "part", to = "pip", taxed = true, tax_on_core = true }] },
               { do = "core back", date = 2025-03-03, line = "hub", qty = 1, amount = 20.33, purse = "cash" },
               { do = "core back", date = 2025-03-04, line = "hub", qty = 1, amount = 20.34, purse = "cash" },
               { do = "void", date = 2025-03-04, entry = 4, why = "it was not that one" },
               { do = "core back", date = 2025-03-05, line = "hub", qty = 1, amount = 20.34, purse = "cash" },
               { do = "void", date = 2025-03-05, entry = 3, why = "nor that one" },
               { do = "core back", date = 2025-03-06, line = "hub", qty = 1, amount = 20.34, purse = "cash" },
               { do = "core back", date = 2025-03-07, line = "hub", qty = 1, amount = 20.32, purse = "cash" })");
  CHECK(shop.due().empty());
  CHECK(shop.purse("cash") == usd("-500"));
}

TEST_CASE("a sale that fell through leaves the car at the same cost, and the days go on from the purchase",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "bank" },
               { do = "buyer deposit", date = 2025-03-20, vehicle = "pip", amount = 100.00, purse = "bank" },
               { do = "sell", date = 2025-03-25, vehicle = "pip", price = 900.00, deposit_used = 100.00, purse = "bank" },
               { do = "receipt", date = 2025-03-26, supplier = "Harrow", paid = "bank", total = 30.00, line = [
                 { what = "battery, a kindness", unit = 30.00, kind = "part", to = "pip" }] },
               { do = "selling cost", date = 2025-03-27, vehicle = "pip", what = "bank's charge on the bounced cheque", amount = 12.00, purse = "bank" },
               { do = "void", date = 2025-03-27, entry = 3, why = "the cheque bounced" },
               { do = "deposit kept", date = 2025-03-28, vehicle = "pip", amount = 100.00 })");
  VehicleFigures pip = shop.show("pip");
  CHECK(pip.life.state == State::owned);
  CHECK(pip.cost == usd("530"));  // the battery stays in the car, which is not sold
  CHECK(pip.carried == usd("530"));
  CHECK(pip.late_cost == Money{});
  CHECK(pip.deposit_kept == usd("100"));
  CHECK(pip.break_even_price == usd("442"));  // 530 + 12 - 100
  CHECK(on_board(shop, "pip").carried == usd("530"));
  CHECK_FALSE(pip.margin.has_value());  // no sale price yet: blank, not zero

  shop.post(R"({ do = "sell", date = 2025-05-10, vehicle = "pip", price = 800.00, purse = "bank" })");
  pip = shop.show("pip");
  CHECK(pip.days == 70);
  CHECK(pip.cost == usd("530"));
  CHECK(pip.carried == Money{});
  CHECK(pip.cash_profit == usd("358"));                      // 800 - 530 - 12 + 100
  CHECK_THAT(*pip.margin, Catch::WithinAbs(0.4475, 1e-12));  // the kept deposit is income, not sale price
  CHECK(on_board(shop, "pip").cash_profit == usd("358"));
  CHECK(shop.purse("bank") == usd("358"));
}

TEST_CASE("a part-out over the end of a year stands at the cost not yet recovered", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2024-11-01, vehicle = "gull", price = 400.00, purse = "cash" },
               { do = "selling cost", date = 2024-11-20, vehicle = "gull", what = "advert", amount = 15.00, purse = "cash" },
               { do = "recover", date = 2024-12-10, vehicle = "gull", what = "engine", amount = 250.00, purse = "cash" },
               { do = "recover", date = 2025-01-15, vehicle = "gull", what = "gearbox", amount = 180.00, purse = "cash" },
               { do = "recover", date = 2025-02-01, vehicle = "gull", what = "scrap", amount = 90.00, purse = "cash" })");
  CHECK(shop.show("gull", on("2024-12-31")).carried == usd("150"));
  CHECK(shop.show("gull", on("2024-12-31")).break_even_price == usd("165"));  // 400 + 15 - 250
  // 150 of the gearbox and the scrap still lower the cost; the other 120 are income.
  CHECK(shop.show("gull").carried == Money{});
  CHECK(shop.show("gull").recovered_beyond_cost == usd("120"));
  shop.post(R"({ do = "write off", date = 2025-02-02, vehicle = "gull" })");
  const VehicleFigures gull = shop.show("gull");
  CHECK(gull.life.state == State::finished);
  CHECK(gull.cash_profit == usd("105"));  // 520 - 400 - 15: the advert counts for a car that ended in pieces
  CHECK(gull.days == 93);
  CHECK_FALSE(gull.margin.has_value());
  CHECK(shop.purse("cash") == usd("105"));
}

TEST_CASE("what a car in pieces still brings is what was last said of it, less what was recovered since",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2024-11-01, vehicle = "gull", price = 400.00, purse = "cash" },
               { do = "recover", date = 2024-11-02, vehicle = "gull", what = "battery", amount = 20.00, purse = "cash" },
               { do = "part out", date = 2024-11-02, vehicle = "gull", still_brings = 500.00 },
               { do = "recover", date = 2024-12-10, vehicle = "gull", what = "engine", amount = 250.00, purse = "cash" },
               { do = "recover back", date = 2024-12-12, vehicle = "gull", what = "engine", amount = 30.00, purse = "cash" })");
  CHECK_FALSE(shop.show("gull", on("2024-11-01")).still_brings);
  CHECK(shop.show("gull", on("2024-11-02")).still_brings == usd("500"));
  CHECK(shop.show("gull").still_brings == usd("280"));
  CHECK(shown(shop.show("gull").life) == std::string("in pieces"));
  const EntryId said =
      shop.post(R"({ do = "part out", date = 2025-01-05, vehicle = "gull", still_brings = 90.00 })");
  CHECK(shop.show("gull").still_brings == usd("90"));
  CHECK(shop.show("gull", on("2024-12-31")).still_brings == usd("280"));
  CHECK(shop.show("gull").life.in_pieces_since == on("2024-11-02"));
  shop.post(
      R"({ do = "recover", date = 2025-01-06, vehicle = "gull", what = "doors", amount = 120.00, purse = "cash" })");
  CHECK(shop.show("gull").still_brings == Money{});  // more than was expected
  shop.post("{ do = \"void\", date = 2025-01-07, entry = " + std::to_string(said) +
            ", why = \"wrong car\" }");
  CHECK(shop.show("gull").still_brings == usd("160"));  // 500 - 250 + 30 - 120
  shop.post(R"({ do = "write off", date = 2025-02-02, vehicle = "gull" })");
  CHECK_FALSE(shop.show("gull").still_brings);
}

TEST_CASE("a car in pieces that brought too little is finished at a loss", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "gull", price = 400.00, purse = "cash" },
               { do = "recover", date = 2025-03-10, vehicle = "gull", what = "scrap", amount = 150.00, purse = "cash" },
               { do = "write off", date = 2025-03-11, vehicle = "gull" })");
  CHECK(shop.show("gull").cash_profit == usd("-250"));
  CHECK(shop.show("gull").carried == Money{});
}

TEST_CASE("money given back to the buyer of a part lowers what was recovered, before the sale and after",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 400.00, purse = "cash" },
               { do = "recover", date = 2025-03-10, vehicle = "pip", what = "seats", amount = 100.00, purse = "cash" },
               { do = "recover back", date = 2025-03-12, vehicle = "pip", what = "seats", amount = 40.00, purse = "cash" })");
  CHECK(shop.show("pip").carried == usd("340"));
  shop.post(R"({ do = "sell", date = 2025-04-01, vehicle = "pip", price = 500.00, purse = "cash" },
               { do = "recover back", date = 2025-04-03, vehicle = "pip", what = "seats", amount = 25.00, purse = "cash" })");
  const VehicleFigures pip = shop.show("pip");
  CHECK(pip.recovered_before == usd("60"));
  CHECK(pip.recovered_after == usd("-25"));
  CHECK(pip.cash_profit == usd("135"));  // 500 - 400 + 60 - 25
  CHECK(pip.first_cash_profit == usd("160"));
  CHECK(
      shop.refusal(
          R"({ do = "recover back", date = 2025-04-04, vehicle = "pip", what = "seats", amount = 35.01, purse = "cash" })") ==
      "recover back: 35.01 for \"seats\", but 35.00 was recovered from pip");
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

TEST_CASE("a commission agreed as a share goes along with the price up to which a sale breaks even",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 100.00, purse = "cash" },
               { do = "sell", date = 2025-03-20, vehicle = "pip", price = 500.00, commission = 0.1, costs = [{ name = "advert", amount = 10.00 }], purse = "cash" })");
  // 110 / 0.9 = 122.222.., rounded up: 122.23 leaves 110.00 (112.23 - 12.22 rounds to 110.01).
  CHECK(shop.show("pip").break_even_price == usd("122.23"));
  CHECK(shop.show("pip").cash_profit == usd("340"));
  Shop other;
  other.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 100.00, purse = "cash" },
                { do = "sell", date = 2025-03-20, vehicle = "pip", price = 500.00, commission = 50.00, costs = [{ name = "advert", amount = 10.00 }], purse = "cash" })");
  CHECK(other.show("pip").break_even_price == usd("160"));  // agreed as an amount, it stays
}

TEST_CASE("an entry of a closed period is taken back later, and the closed period stays as it was",
          "[book]") {
  Shop shop;
  shop.today = on("2025-02-10");
  shop.post(R"({ do = "owner in", date = 2024-06-01, purse = "cash", amount = 1000.00 },
               { do = "buy", date = 2024-12-01, vehicle = "pip", price = 500.00, purse = "cash" },
               { do = "hours", date = 2024-12-05, vehicle = "pip", operation = "brakes", own = 3 },
               { do = "receipt", date = 2024-12-10, supplier = "Harrow", paid = "cash", total = 45.00, line = [
                 { what = "radiator", unit = 30.00, core = 15.00, kind = "part", to = "pip" }] })");
  shop.record([](Recording& recording) { close(recording, on("2024-12-31")); });
  shop.post(R"({ do = "void", date = 2025-02-10, entry = 4, why = "it was for another shop" },
               { do = "void", date = 2025-02-10, entry = 3, why = "not my hours" })");
  CHECK(shop.purse("cash", on("2024-12-31")) == usd("455"));
  CHECK(shop.show("pip", on("2024-12-31")).cost == usd("530"));
  CHECK(shop.show("pip", on("2024-12-31")).own_hours == Hours::parse("3"));
  CHECK(shop.due(on("2024-12-31")).size() == 1);
  CHECK(shop.purse("cash", on("2025-02-09")) == usd("455"));
  CHECK(shop.purse("cash", on("2025-02-10")) == usd("500"));
  CHECK(shop.purse("cash") == usd("500"));
  CHECK(shop.show("pip").cost == usd("500"));
  CHECK(shop.show("pip").own_hours == Hours{});
  CHECK(shop.due().empty());
  // In an open period a void bears the day of what it takes back: no day shows a mistake of the day.
  shop.post(R"({ do = "owner out", date = 2025-01-15, purse = "cash", amount = 70.00 },
               { do = "void", date = 2025-02-10, entry = 8, why = "typed twice" })");
  CHECK(shop.purse("cash", on("2025-01-20")) == usd("455"));
}

TEST_CASE(
    "what looking cost goes to the overhead of looking, and comes back to a car that is bought after all",
    "[book]") {
  Shop shop;
  shop.post(R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", paid = "cash", total = 8.00, line = [
                 { what = "test fluid", unit = 8.00, kind = "consumable", to = "wren" }] },
               { do = "pass", date = 2025-03-02, vehicle = "wren", why = "asked too much" })");
  CHECK(shop.show("wren").looking == usd("8"));
  CHECK(shop.show("wren").cost == usd("8"));
  CHECK(shop.show("wren").carried == Money{});
  shop.post(
      R"({ do = "hours", date = 2025-03-20, vehicle = "wren", operation = "second look", paid = 1, rate = 12.00, purse = "cash" },
               { do = "buy", date = 2025-03-21, vehicle = "wren", price = 300.00, purse = "cash" })");
  CHECK(shop.show("wren").looking == Money{});
  CHECK(shop.show("wren").cost == usd("320"));
  CHECK(shop.show("wren").carried == usd("320"));
  shop.post(R"({ do = "sell", date = 2025-04-21, vehicle = "wren", price = 500.00, purse = "cash" })");
  CHECK(shop.show("wren").cash_profit == usd("180"));
  CHECK(shop.show("wren").days == 31);
}

TEST_CASE("looking that was recorded after a pass which is taken back is not lost when the car is bought",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "pass", date = 2025-03-01, vehicle = "wren", why = "rust" },
               { do = "hours", date = 2025-03-02, vehicle = "wren", operation = "look", paid = 1, rate = 12.00, purse = "cash" },
               { do = "void", date = 2025-03-03, entry = 1, why = "no rust after all" })");
  CHECK(shop.show("wren").cost == usd("12"));
  CHECK(shop.show("wren").carried == usd("12"));
  shop.post(R"({ do = "buy", date = 2025-03-04, vehicle = "wren", price = 300.00, purse = "cash" })");
  CHECK(shop.show("wren").cost == usd("312"));
  CHECK(shop.show("wren").carried == usd("312"));
}

TEST_CASE("the price paid and its fees are told apart, for a car that was given as well", "[book]") {
  Shop shop;
  shop.post(R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", paid = "cash", total = 8.00, line = [
                 { what = "test fluid", unit = 8.00, kind = "consumable", to = "wren" }] },
               { do = "pass", date = 2025-03-02, vehicle = "wren" },
               { do = "buy", date = 2025-03-04, vehicle = "wren", price = 0, purse = "cash",
                 fees = [{ name = "title", amount = 62.00 }, { name = "tow", amount = 40.00, purse = "bank" }] })");
  CHECK(shop.show("wren").price_paid == Money{});
  CHECK(shop.show("wren").fees == usd("102"));
  CHECK(shop.show("wren").cost == usd("110"));
  CHECK(shop.purse("bank") == usd("-40"));
}

TEST_CASE("a sold car's result is final when nothing is open any more, the first result beside it",
          "[book]") {
  Shop shop;
  shop.record([](Recording& recording) { set(recording, "hour", "20"); });
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "cash" },
               { do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", total = 100.00, line = [
                 { id = "rack", what = "rack", unit = 80.00, core = 20.00, kind = "part", to = "pip" }] },
               { do = "hours", date = 2025-03-03, vehicle = "pip", operation = "steering", own = 4.5 },
               { do = "receipt", date = 2025-03-30, paid = { cash = 10.00 }, total = 10.00, itemised = false,
                 line = [{ what = "polish", amount = 10.00, kind = "consumable", to = "pip" }] },
               { do = "sell", date = 2025-04-01, vehicle = "pip", price = 900.00, commission = 0.03, purse = "cash" })");
  VehicleFigures pip = shop.show("pip");
  CHECK(pip.cash_profit == usd("283"));  // 900 - 590 - 27
  CHECK(pip.profit == usd("193"));       // less 4.5 x 20
  CHECK(pip.due.size() == 1);
  CHECK(pip.waiting.size() == 1);
  CHECK_FALSE(pip.final);
  shop.post(R"({ do = "core back", date = 2025-04-10, line = "rack", amount = 15.00, purse = "cash" },
               { do = "receipt", date = 2025-04-11, supplier = "Millgate", replaces = 4, paid = { cash = 10.00 }, total = 10.00,
                 line = [{ what = "polish", amount = 10.00, kind = "consumable", to = "pip" }] },
               { do = "recover", date = 2025-04-12, vehicle = "pip", what = "spare wheel", amount = 18.00, purse = "cash" })");
  pip = shop.show("pip");
  CHECK(pip.final);
  CHECK(pip.first_cash_profit == usd("283"));
  CHECK(pip.cash_profit == usd("296"));  // 5 of the core never came back, 18 came in
  CHECK(pip.per_own_hour == usd("65.78"));
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

TEST_CASE(
    "the sale before the one that reaches the dealer limit says so, and the moving year is counted to the "
    "day",
    "[book]") {
  Shop shop;
  shop.record([](Recording& recording) { set(recording, "dealer-limit", "3"); });
  const auto sell = [&](const std::string& tag, const std::string& day) {
    shop.post("{ do = \"buy\", date = 2024-01-01, vehicle = \"" + tag +
              "\", price = 1.00, purse = \"cash\" }");
    shop.post("{ do = \"sell\", date = " + day + ", vehicle = \"" + tag +
              "\", price = 2.00, purse = \"cash\" }");
    return shop.remarks.empty() ? std::string() : shop.remarks.back();
  };
  CHECK(sell("car-a", "2024-06-30") == "");
  CHECK(sell("car-b", "2025-03-01") ==
        "2 sold in twelve months: the next sale reaches your limit of 3; ask what local law says before it");
  CHECK(sold_in_twelve_months(shop.book(), on("2025-06-29")) == 2);
  CHECK(sold_in_twelve_months(shop.book(), on("2025-06-30")) == 1);  // the first lies a year back now
  CHECK(sell("car-c", "2025-06-29") ==
        "this is sale 3 in twelve months, and your limit is 3: ask whether local law counts you as a dealer "
        "now");
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

TEST_CASE("what a car cost and brought, line by line, adds up to its cash profit", "[book]") {
  Shop shop;
  shop.post(R"({ do = "receipt", date = 2025-02-27, supplier = "Harrow", paid = "cash", total = 8.00, line = [
                 { what = "test fluid", unit = 8.00, kind = "consumable", to = "pip" }] },
               { do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "cash", fees = [{ name = "title", amount = 62.00 }] },
               { do = "receipt", date = 2025-03-02, supplier = "Cleave Yard", number = "88", paid = "cash", tax = 7.00, shipping = 5.00, total = 132.00, line = [
                 { id = "rack", what = "rack", unit = 80.00, core = 20.00, kind = "part", source = "salvage", to = "pip", taxed = true },
                 { id = "hose", what = "hose", qty = 2, unit = 10.00, kind = "part", share = { pip = 1, teal = 1 }, taxed = true }] },
               { do = "return", date = 2025-03-03, line = "hose", qty = 1, goods = 10.00, tax = 0.70, restocking = 1.00, purse = "cash" },
               { do = "core back", date = 2025-03-04, line = "rack", amount = 15.00, purse = "cash" },
               { do = "recover", date = 2025-03-05, vehicle = "pip", what = "seat", amount = 25.00, purse = "cash" },
               { do = "sell", date = 2025-04-01, vehicle = "pip", price = 900.00, commission = 0.03, costs = [{ name = "advert", amount = 20.00 }], purse = "cash" })");
  Money sum;
  std::vector<std::string> what;
  for (const MoneyLine& line : money_of(shop.book(), "pip")) {
    what.push_back(line.what);
    if (line.kind != MoneyKind::due_back) sum += line.amount;
  }
  CHECK(what == std::vector<std::string>{
                    "test fluid", "price paid", "title", "rack", "deposit on the core of rack", "hose",
                    "hose went back, restocking kept", "core of rack went back",
                    "core of rack came back short", "seat", "sale price", "advert", "commission"});
  // 900 + 25 - 47 - 8 - 562 - rack 80 + 5.60 tax + 4 shipping - half the hoses' 22.40 + half the 9.70 that
  // came back - 5 short
  CHECK(sum == usd("207.05"));
  CHECK(shop.show("pip").cash_profit == sum);
}

TEST_CASE("a deposit on a borrowed tool that comes back short is closed as overhead, never a car's cost",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "tool deposit", date = 2025-03-01, what = "hoist", amount = 80.00, purse = "cash" },
               { do = "tool deposit back", date = 2025-03-03, what = "hoist", amount = 65.00, purse = "cash" })");
  REQUIRE(shop.due().size() == 1);
  CHECK(shop.due().front().amount == usd("15"));
  shop.post(R"({ do = "tool deposit back", date = 2025-03-04, what = "hoist", amount = 0, kept = 15.00 })");
  CHECK(shop.due().empty());
  CHECK(shop.balance("overhead") == usd("15"));
  CHECK(shop.purse("cash") == usd("-15"));
  const auto listed = posted_to(shop.book(), account::overhead, on("2025-01-01"), on("2025-12-31"));
  REQUIRE(listed.size() == 1);
  CHECK(listed.front().what == "hoist, deposit not given back");
}

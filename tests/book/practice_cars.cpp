// What becomes of a car, as stories: sold, fallen through, in pieces, passed, over the end of a year; every figure worked
// out by hand beside it. Common practice, no source.
#include "book/events/post.h"
#include "book/events/sell.h"
#include "book/ledger/settings.h"
#include "book/questions/board.h"
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

TEST_CASE("a sale that fell through later is shown with its own first result on the days before", "[book]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 500.00, purse = "bank" },
               { do = "sell", date = 2025-03-25, vehicle = "pip", price = 1000.00, commission = 0.05, costs = [{ name = "advert", amount = 10.00 }], purse = "bank" },
               { do = "void", date = 2025-04-05, entry = 2, why = "the cheque bounced", later = true })");
  const VehicleFigures then = shop.show("pip", on("2025-03-31"));
  CHECK(then.cash_profit == usd("440"));
  CHECK(then.first_cash_profit == usd("440"));
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

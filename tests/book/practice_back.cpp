// What goes back or is due back, as stories: cores, returns, deposits, money given back; every figure worked out by hand
// beside it. Common practice, no source.
#include "book/events/post.h"
#include "book/questions/period.h"
#include "book/walk.h"
#include "words/due.h"

using namespace nonrunner;
using namespace nonrunner::book;

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

TEST_CASE("a piece whose old part was handed in is fitted, and does not go back any more", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-06-01, supplier = "Harrow", paid = "cash", total = 140.00, back_by = 2025-06-30, line = [
                 { id = "caliper", what = "caliper", qty = 2, unit = 40.00, core = 30.00, kind = "part", to = "pip" }] },
               { do = "core back", date = 2025-06-05, line = "caliper", qty = 1, amount = 30.00, purse = "cash" })");
  CHECK(may_go_back(shop.book(), on("2025-06-04")).front().refund == usd("80"));
  CHECK(may_go_back(shop.book(), on("2025-06-05")).front().refund == usd("40"));
  shop.post(
      R"({ do = "core back", date = 2025-06-06, line = "caliper", qty = 1, amount = 30.00, purse = "cash" })");
  CHECK(may_go_back(shop.book(), on("2025-06-06")).empty());
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

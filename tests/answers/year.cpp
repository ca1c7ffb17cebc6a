// What the year workbook is filled with.
#include "answers/year.h"

#include <map>

#include "answers/year_sums.h"
#include "book/events/correct.h"
#include "book/events/void_entry.h"
#include "book/fixture.h"
#include "book/ledger/settings.h"
#include "reports/year_words.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

std::map<std::string, Money> bought(Shop& shop, int year) {
  std::map<std::string, Money> all;
  for (const auto& each : answers::year_figures(shop.book(), year, shop.today).bought)
    all[reports::in_words(each)] = each.amount;
  return all;
}

// Bought in 2025: a car, new and salvage parts, one whose paper says neither, work sent out; paid by card.
void fill(Shop& shop) {
  shop.post(
      R"({ do = "buy", date = 2025-02-01, vehicle = "pip", price = 700.00, purse = "cash", fees = [{ name = "title", amount = 40.00 }] },
         { do = "receipt", date = 2025-02-03, supplier = "Harrow", number = "1", paid = "card", total = 181.50, line = [
           { id = "pump", what = "pump", unit = 72.00, kind = "part", source = "new", to = "pip" },
           { id = "radiator", what = "radiator", unit = 48.00, kind = "part", source = "salvage", to = "pip" },
           { id = "clamp", what = "clamp", unit = 1.50, kind = "part", to = "pip" },
           { id = "skim", what = "skim the head", unit = 60.00, kind = "sublet", to = "pip" } ] })");
}

// Two years of a shop, each amount another, so that one that is counted twice or left out is seen.
void live_two_years(Shop& shop) {
  shop.post(R"(
    { do = "owner in", date = 2024-01-02, purse = "cash", amount = 5000.00 },
    { do = "buy", date = 2024-11-01, vehicle = "teal", price = 1000.00, purse = "cash" },
    { do = "recover", date = 2024-11-20, vehicle = "teal", what = "doors", amount = 200.00, purse = "cash" },
    { do = "buy", date = 2024-11-02, vehicle = "rook", price = 300.00, purse = "cash" },
    { do = "sell", date = 2024-12-20, vehicle = "rook", price = 400.00, purse = "cash", to = "Ann Ember" },
    { do = "receipt", date = 2024-12-01, supplier = "Cleave", number = "1", paid = "cash", total = 60.00, line = [
      { what = "oil", qty = 10, unit = 6.00, kind = "stock", stock = "oil" }] },
    { do = "receipt", date = 2024-12-02, supplier = "Cleave", number = "2", paid = "cash", total = 90.00, tools = "asset", line = [
      { what = "jack", amount = 90.00, kind = "tool" }] },
    { do = "receipt", date = 2024-12-03, supplier = "Harrow", number = "3", on_account = true, total = 45.00, line = [
      { what = "lamp", amount = 45.00, kind = "part", to = "teal" }] })");
  shop.post(R"(
    { do = "move", date = 2025-01-04, from = "cash", to = "Harrow credit", amount = 33.00 },
    { do = "recover", date = 2025-01-10, vehicle = "teal", what = "lamps", amount = 50.00, purse = "cash" },
    { do = "draw", date = 2025-01-11, vehicle = "teal", stock = "oil", qty = 2 },
    { do = "buy", date = 2025-02-01, vehicle = "pip", price = 700.00, purse = "cash" },
    { do = "receipt", date = 2025-02-03, supplier = "Harrow", number = "5", paid = "cash", total = 37.00, line = [
      { what = "oil for the lift", amount = 30.00, kind = "overhead" },
      { what = "clip", amount = 7.00, kind = "part", to = "pip" }] },
    { do = "receipt", date = 2025-02-04, supplier = "Cleave", number = "6", paid = "cash", total = 25.00, tools = "expense", line = [
      { what = "pliers", amount = 25.00, kind = "tool" }] },
    { do = "receipt", date = 2025-02-05, supplier = "Cleave", number = "7", paid = "cash", total = 80.00, tools = "asset", line = [
      { what = "press", amount = 80.00, kind = "tool" }] },
    { do = "buyer deposit", date = 2025-03-01, vehicle = "pip", amount = 100.00, purse = "cash" },
    { do = "deposit kept", date = 2025-03-02, vehicle = "pip", amount = 100.00 },
    { do = "trip", date = 2025-03-03, vehicle = "pip", distance = 12, why = "parts", from = "home" },
    { do = "hours", date = 2025-03-04, vehicle = "pip", operation = "weld", own = 5, paid = 3, rate = 10, purse = "cash", who = "Otis Fen" },
    { do = "hours", date = 2025-03-05, vehicle = "pip", operation = "paint", paid = 1, rate = 11, purse = "cash", who = "Otis Fen" },
    { do = "sell", date = 2025-04-01, vehicle = "pip", price = 1500.00, purse = "cash", to = "Mara Holt", odometer = 118302, costs = [
      { name = "advert", amount = 20.00 }] },
    { do = "receipt", date = 2025-04-10, paid = "cash", total = 15.00, itemised = false, line = [
      { what = "bulb", amount = 15.00, kind = "part", to = "pip" }] },
    { do = "receipt", date = 2025-04-11, paid = "cash", total = 13.00, itemised = false, line = [
      { what = "train", amount = 13.00, kind = "fee", to = "wren" }] },
    { do = "pass", date = 2025-04-12, vehicle = "wren" },
    { do = "part out", date = 2025-05-01, vehicle = "teal", still_brings = 100.00 },
    { do = "write off", date = 2025-05-02, vehicle = "teal" })");
}

}  // namespace

TEST_CASE(
    "the year's purchases stand by what they were for, parts new and salvage apart, and add up to the "
    "account",
    "[answers][year]") {
  Shop shop;
  fill(shop);
  CHECK(bought(shop, 2025) == std::map<std::string, Money>{{"cars", usd("700")},
                                                           {"fees", usd("40")},
                                                           {"parts, new", usd("72")},
                                                           {"parts, salvage", usd("48")},
                                                           {"parts, not said whether new", usd("1.50")},
                                                           {"work sent out", usd("60")}});
  // What went back comes off its own line.
  shop.post(
      R"({ do = "return", date = 2025-03-01, line = "radiator", goods = 48.00, restocking = 8.00, purse = "cash" })");
  CHECK(bought(shop, 2025).at("parts, salvage") == usd("8"));
  Money sum;
  for (const auto& each : bought(shop, 2025)) sum += each.second;
  CHECK(sum == shop.balance("vehicle cost", "pip"));
}

TEST_CASE("a paper of the year before that is taken back comes off this year under what it was for",
          "[answers][year]") {
  Shop shop;
  shop.today = on("2026-03-01");
  fill(shop);
  shop.post(
      R"({ do = "close", date = 2025-12-31, why = "handed in" }, { do = "void", date = 2026-02-01, entry = 2, why = "not ours" })");
  CHECK(bought(shop, 2026) == std::map<std::string, Money>{{"parts, new", usd("-72")},
                                                           {"parts, salvage", usd("-48")},
                                                           {"parts, not said whether new", usd("-1.50")},
                                                           {"work sent out", usd("-60")}});
  CHECK(bought(shop, 2025).at("parts, salvage") == usd("48"));
}

TEST_CASE("parts sold off cars stand in the year at all that was got for them, whatever of it is income",
          "[answers][year]") {
  Shop shop;
  fill(shop);
  shop.post(
      R"({ do = "recover", date = 2025-04-01, vehicle = "pip", what = "doors", amount = 900.00, purse = "cash" },
         { do = "recover", date = 2025-04-02, vehicle = "pip", what = "scrap", amount = 150.00, purse = "cash" },
         { do = "recover back", date = 2025-04-09, vehicle = "pip", what = "one door", amount = 30.00, purse = "cash" })");
  const auto year = answers::year_figures(shop.book(), 2025, shop.today);
  REQUIRE(year.parts_sold.size() == 3);
  CHECK(year.parts_sold[0].what == "doors");
  CHECK(year.parts_sold[0].amount == usd("900"));
  CHECK(year.parts_sold[0].about == "pip");
  CHECK(year.parts_sold[2].amount == usd("-30"));
  // 921.50 of the 1,020.00 lowered the cost; 98.50 is income.
  CHECK(year.result == usd("98.50"));
}

TEST_CASE("a year begins with what the last one left, and each car, month, purse and shelf adds up by hand",
          "[answers][year]") {
  Shop shop;
  live_two_years(shop);
  shop.post(R"({ do = "void", date = 2025-06-02, entry = 20, why = "typed twice" })");  // the 11 for paint
  shop.record([](Recording& recording) { set(recording, "dealer-limit", "4"); });
  const auto year = answers::year_figures(shop.book(), 2025, shop.today);
  std::map<std::string, figures::YearVehicle> cars;
  for (const auto& each : year.vehicles) cars[each.tag] = each;
  CHECK(cars.size() == 2);  // rook was sold the year before, wren was left
  const auto &teal = cars["teal"], &pip = cars["pip"];
  CHECK(teal.opening == usd("845"));  // 1,000 and the lamp of 45 less the doors
  CHECK(year.carried_before == usd("845"));
  CHECK(teal.added == usd("12"));  // 2 of the oil at 6
  CHECK(teal.recovered == usd("50"));
  CHECK(teal.cost_of_sales == usd("807"));
  CHECK(teal.closing == Money{});
  CHECK_FALSE(teal.parts_sold_off);
  CHECK(pip.opening == Money{});
  CHECK(pip.added == usd("737"));  // 700, the clip of 7, and 30 for welding
  CHECK(pip.cost_of_sales == usd("737"));
  CHECK(pip.sales == usd("1500"));
  CHECK(pip.selling_costs == usd("20"));
  CHECK(pip.late_cost == usd("15"));
  CHECK(pip.other_income == usd("100"));
  CHECK(pip.closing == Money{});
  CHECK(pip.own_hours == Hours::parse("5"));
  REQUIRE(year.months.size() == 6);  // until today, the 30th of June
  CHECK(year.months[1].overhead == usd("30"));
  CHECK(year.months[1].tools == usd("25"));  // what is kept as an asset costs nothing
  CHECK(year.months[2].other_income == usd("100"));
  CHECK(year.months[3].sales == usd("1500"));
  CHECK(year.months[3].cost_of_sales == usd("737"));
  CHECK(year.months[3].late_cost == usd("15"));
  CHECK(year.months[3].looking == usd("13"));
  CHECK(year.months[4].cost_of_sales == usd("807"));
  // 1,500 + 100 - 20 - 737 - 807 - 15 - 13 - 30 - 25.
  CHECK(year.result == usd("-47"));
  REQUIRE(year.stock.size() == 1);
  CHECK(year.stock[0].opening == usd("60"));
  CHECK(year.stock[0].used == usd("12"));
  CHECK(year.stock[0].closing == usd("48"));
  CHECK(year.stock[0].quantity == Quantity::of(8000));
  REQUIRE(year.tools.size() == 1);
  CHECK(year.tools[0].what == "pliers");
  CHECK(year.tools[0].paper == "Cleave 6");
  REQUIRE(year.tools_kept.size() == 2);
  CHECK(year.tools_kept[0].amount == usd("90"));
  CHECK(year.tools_kept[1].what == "press");
  REQUIRE(year.overhead.size() == 1);
  CHECK(year.overhead[0].what == "oil for the lift");  // and no clip
  REQUIRE(year.trips.size() == 1);
  CHECK(year.trips[0].where == "home");
  // The lamp on account is owed, the credit is due to us and stands in the purses as well.
  REQUIRE(year.owed.size() == 1);
  CHECK(year.owed[0].amount == usd("45"));
  CHECK(year.credit_due == usd("33"));
  // What was there less what was owed: 5,000 and the 100 that rook brought.
  CHECK(year.opening_capital == usd("5100"));
  REQUIRE(year.helpers.size() == 1);
  CHECK(year.helpers[0].name == "Otis Fen");
  CHECK(year.helpers[0].entries == 1);
  CHECK(year.helpers[0].amount == usd("30"));
  REQUIRE(year.sales.size() == 2);  // the year before stands beside it
  CHECK(year.sales[0].buyer == "Ann Ember");
  CHECK(year.sales[1].buyer == "Mara Holt");
  CHECK(year.sales[1].odometer == "118302");
  CHECK(year.sales_limit == 4);
}

TEST_CASE(
    "what was put into cars is said by what it was for, and what is no cost of a car that is there comes off",
    "[answers][year]") {
  Shop shop;
  live_two_years(shop);
  shop.post(R"(
    { do = "buy", date = 2025-05-03, vehicle = "drake", price = 50.00, purse = "cash" },
    { do = "recover", date = 2025-05-05, vehicle = "drake", what = "seat", amount = 6.00, purse = "cash" },
    { do = "receipt", date = 2025-05-04, supplier = "Cleave", number = "9", paid = "cash", total = 8.00, line = [
      { id = "belt", what = "belt", amount = 8.00, kind = "part", to = "drake" }] },
    { do = "shelve", date = 2025-05-06, line = "belt", stock = "belts", qty = 1 })");
  CHECK(bought(shop, 2025) ==
        std::map<std::string, Money>{{"cars", usd("750")},
                                     {"fees", usd("13")},
                                     {"parts, not said whether new", usd("30")},
                                     {"consumables", usd("12")},
                                     {"paid help", usd("41")},
                                     {"moved to the shelf", usd("-8")},
                                     {"less what came after a sale", usd("-15")},
                                     {"less looking at cars that were left", usd("-13")}});
  const auto year = answers::year_figures(shop.book(), 2025, shop.today);
  for (const auto& each : year.vehicles)
    if (each.tag == "drake") {
      CHECK(each.parts_sold_off);
      CHECK(each.closing == usd("44"));
    }
}

TEST_CASE("what was put into a car that was left comes off whole, whatever was recovered from it",
          "[answers][year]") {
  Shop shop;
  shop.post(R"(
    { do = "owner in", date = 2024-01-02, purse = "cash", amount = 500.00 },
    { do = "receipt", date = 2024-12-01, itemised = false, paid = "cash", total = 60.00, line = [{ what = "fluid", amount = 60.00, kind = "part", to = "teal" }] },
    { do = "recover", date = 2025-02-02, vehicle = "teal", what = "wheel", amount = 20.00, purse = "cash" },
    { do = "pass", date = 2025-02-03, vehicle = "teal", why = "too dear" },
    { do = "receipt", date = 2025-03-01, itemised = false, paid = "cash", total = 7.00, line = [{ what = "tape", amount = 7.00, kind = "part", to = "teal" }] },
    { do = "recover", date = 2025-04-02, vehicle = "teal", what = "jack", amount = 3.00, purse = "cash" })");
  CHECK(bought(shop, 2025).at("less looking at cars that were left") == usd("-67"));
  const auto year = answers::year_figures(shop.book(), 2025, shop.today);
  Money put_in, added;
  for (const auto& each : year.bought) put_in += each.amount;
  for (const auto& each : year.vehicles) added += each.added;
  CHECK(put_in == usd("-60"));  // 60 stood there before, 7 came to it
  CHECK(added == put_in);
  CHECK(year.result == usd("-44"));
}

TEST_CASE(
    "what a helper got stays in the year that is closed, whatever is put right or taken back of it later",
    "[answers][year]") {
  Shop shop;
  shop.post(R"(
    { do = "buy", date = 2024-02-01, vehicle = "pip", price = 100.00, purse = "cash" },
    { do = "hours", date = 2024-03-02, vehicle = "pip", operation = "weld", paid = 2, rate = 10.00, purse = "cash", who = "Ann" },
    { do = "hours", date = 2024-03-03, vehicle = "pip", operation = "sand", paid = 1, rate = 7.00, purse = "cash", who = "Ben" },
    { do = "sell", date = 2024-11-01, vehicle = "pip", price = 500.00, purse = "cash", to = "Bob Lark" })");
  shop.record([](Recording& recording) { close(recording, Day(2024, 12, 31)); });
  const auto got = [&](int year) {
    std::string all;
    for (const auto& each : answers::year_figures(shop.book(), year, shop.today).helpers)
      all += each.name + " " + each.amount.plain(Currency()) + "\n";
    return all;
  };
  CHECK(got(2024) == "Ann 20.00\nBen 7.00\n");
  shop.record([](Recording& recording) {
    Correction words;
    words.entry = 2;
    words.what = "welding";
    correct(recording, words);
  });
  CHECK(got(2024) == "Ann 20.00\nBen 7.00\n");
  CHECK(got(2025).empty());
  shop.record([&](Recording& recording) { record(recording, Void{shop.today, 3, "never came", false, {}}); });
  CHECK(got(2024) == "Ann 20.00\nBen 7.00\n");
  CHECK(got(2025) == "Ben -7.00\n");
  const auto sales = answers::year_figures(shop.book(), 2024, shop.today).sales;
  REQUIRE(sales.size() == 1);
  CHECK(sales[0].buyer == "Bob Lark");
}

TEST_CASE(
    "own hours stand in the year in which they were worked, whether or not money of the car moved in it",
    "[answers][year]") {
  Shop shop;
  shop.post(R"(
    { do = "hours", date = 2024-12-10, vehicle = "rook", operation = "looking", own = 2 },
    { do = "hours", date = 2024-12-11, vehicle = "teal", operation = "looking", own = 5 },
    { do = "pass", date = 2024-12-12, vehicle = "teal", why = "rot" },
    { do = "buy", date = 2025-02-01, vehicle = "rook", price = 300.00, purse = "cash" },
    { do = "hours", date = 2025-02-10, vehicle = "rook", operation = "lamp", own = 3 },
    { do = "buy", date = 2025-03-01, vehicle = "wren", price = 0.00, purse = "cash" },
    { do = "sell", date = 2025-03-01, vehicle = "rook", price = 500.00, purse = "cash" })");
  const auto sums = [&](int year) {
    return answers::sums_of(answers::year_figures(shop.book(), year, shop.today));
  };
  CHECK(sums(2024).own_hours == Hours::parse("7"));
  const answers::YearSums later = sums(2025);
  CHECK(later.own_hours == Hours::parse("3"));
  REQUIRE(later.cars.size() == 2);
  CHECK(later.cars[0].tag == "rook");
  CHECK(later.cars[0].per_own_hour == usd("40"));  // 200 for five
  CHECK(later.cars[1].tag == "wren");
  // What is entered for a closed year counts in the first open one, purchase and sale.
  shop.today = Day(2026, 1, 31);
  shop.record([](Recording& recording) { close(recording, Day(2025, 12, 31)); });
  shop.post(R"(
    { do = "sell", date = 2025-12-30, vehicle = "wren", price = 30.00, purse = "cash" },
    { do = "buy", date = 2025-12-20, vehicle = "gull", price = 0.00, purse = "cash" },
    { do = "hours", date = 2026-01-02, vehicle = "wren", operation = "wash", own = 2 })");
  const answers::YearSums last = sums(2026);
  REQUIRE(last.cars.size() == 2);
  CHECK(last.cars[0].tag == "gull");
  CHECK(last.cars[1].per_own_hour == usd("15"));
}

TEST_CASE("what is owed on a card stands among what the shop owes, and a tin below zero does not",
          "[answers][year]") {
  Shop shop;
  fill(shop);
  const auto year = answers::year_figures(shop.book(), 2025, shop.today);
  REQUIRE(year.owed.size() == 1);
  CHECK(year.owed[0].kind == figures::YearOwed::Kind::card);
  CHECK(year.owed[0].name == "card");
  CHECK(year.owed[0].amount == usd("181.50"));
  CHECK(year.card_owed == usd("181.50"));
}

TEST_CASE("a card below zero is owed in the trial balance too, as in the list of what is owed",
          "[answers][year]") {
  Shop shop;
  fill(shop);
  using Group = figures::YearAccount::Group;
  Money owed;
  for (const auto& account : answers::year_figures(shop.book(), 2025, shop.today).trial) {
    if (account.group == Group::owed) owed += account.balance;
    if (account.name == "cash") CHECK(account.group == Group::there);  // a tin that is short owes nobody
  }
  CHECK(owed == usd("-181.50"));
}

TEST_CASE("the tax in the costs of a year is that of its receipts less what went back in it, deposits apart",
          "[answers][year]") {
  Shop shop;
  shop.today = on("2026-03-01");
  const auto paid = [&](int year) { return answers::year_figures(shop.book(), year, shop.today).tax_paid; };
  // 7 % of 30, 20 and the deposit of 20; the crisps are the owner's: 1.40 of his tax is no cost of the shop.
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", tax = 6.30, total = 96.30, line = [
           { id = "rack", what = "rack", unit = 30.00, core = 20.00, kind = "part", to = "pip", taxed = true, tax_on_core = true },
           { id = "lamp", what = "lamp", unit = 20.00, kind = "part", to = "pip", taxed = true },
           { what = "crisps", unit = 20.00, kind = "private", taxed = true }] })");
  CHECK(paid(2025) == usd("3.50"));
  shop.post(
      R"({ do = "core back", date = 2025-03-09, line = "rack", amount = 21.40, purse = "cash" },
         { do = "return", date = 2026-01-09, line = "lamp", goods = 20.00, tax = 1.40, purse = "cash" })");
  CHECK(paid(2025) == usd("3.50"));
  CHECK(paid(2026) == usd("-1.40"));
  shop.post(R"({ do = "void", date = 2026-02-01, entry = 3, why = "it stayed" })");
  CHECK(paid(2026) == Money{});
}

TEST_CASE("the account of a core is called by what the core is of in the trial balance", "[answers][year]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", total = 35.00, line = [
           { what = "starter", unit = 20.00, core = 15.00, kind = "part", to = "pip" }] })");
  std::vector<std::string> cores;
  for (const auto& account : answers::year_figures(shop.book(), 2025, shop.today).trial)
    if (account.kind == "core deposit") cores.push_back(account.name);
  CHECK(cores == std::vector<std::string>{"starter, line 1.1"});
}

TEST_CASE("what was bought for the owner on the shop's papers stands apart from what the owner took out",
          "[answers][year]") {
  Shop shop;
  shop.post(
      R"({ do = "owner in", date = 2025-01-02, purse = "cash", amount = 900.00 },
         { do = "owner out", date = 2025-01-03, purse = "cash", amount = 25.00 },
         { do = "receipt", date = 2025-02-03, supplier = "Harrow", number = "1", paid = "cash", total = 37.10, line = [
           { id = "oil", what = "oil for the house", unit = 30.00, kind = "private" },
           { id = "drink", what = "cold drink", unit = 7.10, kind = "private" } ] },
         { do = "return", date = 2025-02-05, line = "oil", goods = 30.00, purse = "cash" })");
  const auto year = answers::year_figures(shop.book(), 2025, shop.today);
  CHECK(year.put_in == usd("900"));
  CHECK(year.taken_out == usd("25"));
  CHECK(year.owner_on_papers == usd("7.10"));
}

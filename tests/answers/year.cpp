// What the year workbook is filled with.
#include "answers/year.h"

#include <map>

#include "book/fixture.h"
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

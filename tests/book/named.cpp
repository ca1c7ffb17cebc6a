// Who and where beside an event: kept with it, never needed, and as the book's own text says it again.
#include "book/events/named.h"

#include <catch2/catch.hpp>

#include "book/care/export.h"
#include "book/fixture.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

std::string facts(Shop& shop, const std::string& tag) {
  std::string all;
  for (const NamedFact& each : named_facts(shop.book(), tag, shop.today))
    all += (all.empty() ? "" : "; ") + each.event + " " + each.fact + " " + each.value;
  return all;
}

}  // namespace

TEST_CASE("a car's seller, buyer, odometer, helper and the places of a trip stay with their entries",
          "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-01-02, amount = 2000, purse = "cash" },
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 700, purse = "cash", from = "Ann Ember", odometer = 118250 },
    { do = "trip", date = 2025-01-06, vehicle = "pip", distance = 12, why = "parts", from = "home", to = "Cleave Yard" },
    { do = "hours", date = 2025-01-07, vehicle = "pip", operation = "dashboard", paid = 2, rate = 18, purse = "cash", who = "Otis Fen" },
    { do = "sell", date = 2025-02-05, vehicle = "pip", price = 1500, purse = "cash", to = "Mara-Lis Holt", odometer = 118302.5 })");
  CHECK(facts(shop, "pip") ==
        "buy seller Ann Ember; buy odometer 118250; trip from home; trip to Cleave Yard; hours helper Otis "
        "Fen; "
        "sell buyer Mara-Lis Holt; sell odometer 118302.5");
  CHECK(shop.health().sound);
}

TEST_CASE("the tables of an export name who and where as well", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-01-02, amount = 2000, purse = "cash" },
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 700, purse = "cash", from = "Ann Ember", odometer = 118250 },
    { do = "trip", date = 2025-01-06, vehicle = "pip", distance = 12, why = "parts", from = "home", to = "=Cleave Yard" },
    { do = "hours", date = 2025-01-07, vehicle = "pip", operation = "dashboard", paid = 2, rate = 18, purse = "cash", who = "Otis Fen" },
    { do = "sell", date = 2025-02-05, vehicle = "pip", price = 1500, purse = "cash", to = "Mara-Lis Holt", odometer = 118302.5 })");
  export_to(shop.book(), shop.folder() / "out", false, shop.today);
  const auto table = [&](const char* name) { return read_file((shop.folder() / "out" / name).string()); };
  CHECK(table("trips.csv") ==
        "entry,date,vehicle,distance,why,from,to\n3,2025-01-06,pip,12,parts,home,'=Cleave Yard\n");
  CHECK(table("hours.csv") ==
        "entry,date,vehicle,operation,own,paid,who\n4,2025-01-07,pip,dashboard,0,2,Otis Fen\n");
  CHECK(table("vehicles.csv") ==
        "vehicle,state,days,cost_less_recovered,carried,own_hours,sales,cash_profit,bought_from,odometer_"
        "bought,"
        "sold_to,odometer_sold\n"
        "pip,sold,31,736.00,0.00,0,1500.00,764.00,Ann Ember,118250,Mara-Lis Holt,118302.5\n");
}

TEST_CASE("who was named by an entry is known though the entry was taken back", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-01-02, amount = 2000, purse = "cash" },
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 700, purse = "cash", from = "Ann Ember", odometer = 118250 },
    { do = "sell", date = 2025-02-05, vehicle = "pip", price = 1500, purse = "cash", to = "Mara-Lis Holt" },
    { do = "void", date = 2025-02-06, entry = 3, why = "the cheque was bad" })");
  CHECK(people_named(shop.book()) ==
        std::map<EntryId, std::vector<std::string>>{{2, {"Ann Ember"}}, {3, {"Mara-Lis Holt"}}});
}

TEST_CASE("an event without names keeps none, and own hours name nobody", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-01-02, amount = 2000, purse = "cash" },
    { do = "buy", date = 2025-01-05, vehicle = "pip", price = 700, purse = "cash" },
    { do = "hours", date = 2025-01-07, vehicle = "pip", operation = "dashboard", own = 2, who = "Otis Fen" })");
  CHECK(facts(shop, "pip") == "");
}

TEST_CASE("a name of several lines and an odometer below 0 are refused", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-01-02, amount = 2000, purse = "cash" })");
  const std::string buy =
      R"({ do = "buy", date = 2025-01-05, vehicle = "pip", price = 700, purse = "cash", )";
  CHECK(shop.refusal(buy + R"(from = "two\nlines" })") ==
        "buy: the seller is named with 9 letters or several lines, expected one line of at most 200");
  CHECK(shop.refusal(buy + "odometer = -5 }") == "buy: found the odometer at -5, expected 0 or more");
}

TEST_CASE("initials stand for a name where a workbook is handed on", "[book]") {
  CHECK(initials_of("Ann Ember") == "A. E.");
  CHECK(initials_of("Mara-Lis Holt") == "M. L. H.");
  CHECK(initials_of("\xC3\x89lo\xC3\xAF") == "\xC3\x89.");
  CHECK(initials_of("") == "");
  const auto handed_on = [](std::string words, const std::string& name) {
    put_initials(words, name);
    return words;
  };
  CHECK(handed_on("pip, Al", "Al") == "pip, A.");
  CHECK(handed_on("brakes, Alternator, Al", "Al") == "brakes, Alternator, A.");
  CHECK(handed_on("brakes, Alternator", "Al") == "brakes, Alternator");
  CHECK(handed_on("Al, pip, Al, cash", "Al") == "Al, pip, A., cash");
  CHECK(handed_on("Al", "Al") == "A.");
}

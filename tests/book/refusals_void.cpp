// What is not voided, and what is not entered in a period that is closed.
#include <algorithm>
#include <fstream>

#include "book/events/post.h"
#include "book/ledger/settings.h"
#include "book/walk.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

std::string void_of(EntryId entry) {
  return "{ do = \"void\", date = 2025-06-01, entry = " + std::to_string(entry) + ", why = \"typed twice\" }";
}
std::string rests(EntryId later, const std::string& what, EntryId entry) {
  return "void: entry " + std::to_string(later) + " (" + what + ") rests on entry " + std::to_string(entry) +
         "; void that first: nonrunner void " + std::to_string(later) + " --why \"...\"";
}
std::string used(EntryId entry, const std::string& what, EntryId by, const std::string& word) {
  return "void: what entry " + std::to_string(entry) + " brought to " + what + " is used already, by entry " +
         std::to_string(by) + " (" + word + "); void that first: nonrunner void " + std::to_string(by) +
         " --why \"...\"";
}

}  // namespace

TEST_CASE("void refuses an entry that is not there, a reversal, and what was voided already", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 5.00 })");
  CHECK(shop.refusal(void_of(2)) == "void: entry 2: there is no such entry; see: nonrunner entries");
  shop.post(void_of(1));
  CHECK(shop.refusal(void_of(2)) ==
        "void: entry 2 takes back entry 1, and a reversal cannot be voided; make entry 1 again instead");
  CHECK(shop.refusal(void_of(1)) == "void: entry 1 was voided already, by entry 2");
}

TEST_CASE("an entry that something later rests on is not voided before that is", "[book]") {
  Shop shop;
  SECTION("but not the purchase of a car that was passed before, though it has a cost") {
    shop.post(R"({ do = "pass", date = 2025-03-01, vehicle = "wren", why = "rust" },
                 { do = "buy", date = 2025-03-02, vehicle = "wren", price = 300.00, purse = "cash" },
                 { do = "hours", date = 2025-03-03, vehicle = "wren", operation = "pump", paid = 2, rate = 10, purse = "cash" })");
    shop.post(void_of(2));
    CHECK(shop.show("wren").looking == usd("20"));  // passed again: what it cost is looking
  }
  SECTION("the purchase of a car that was sold; costs of it are less cost of the sale") {
    shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 300.00, purse = "cash" },
                 { do = "hours", date = 2025-03-02, vehicle = "pip", operation = "weld", paid = 2, rate = 20.00, purse = "cash" },
                 { do = "recover", date = 2025-03-02, vehicle = "pip", what = "seat", amount = 20.00, purse = "cash" },
                 { do = "sell", date = 2025-03-03, vehicle = "pip", price = 500.00, purse = "cash" })");
    CHECK(shop.refusal(void_of(1)) == rests(4, "what became of the car", 1));
    shop.post(void_of(2));
    shop.post(void_of(3));
    CHECK(shop.show("pip").cash_profit == usd("200"));
  }
  SECTION("but not looking before a pass, nor a pass before a purchase") {
    shop.post(
        R"({ do = "hours", date = 2025-03-01, vehicle = "pip", operation = "look", paid = 1, rate = 20.00, purse = "cash" },
                 { do = "pass", date = 2025-03-02, vehicle = "pip", why = "rust" },
                 { do = "buy", date = 2025-03-03, vehicle = "pip", price = 300.00, purse = "cash" })");
    shop.post(void_of(1));
    shop.post(void_of(2));
    CHECK(shop.show("pip").cost == usd("300"));
  }
  SECTION("a line of which something went back") {
    shop.post(
        R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", paid = "cash", total = 35.00, line = [
                   { id = "rack", what = "rack", unit = 20.00, core = 15.00, kind = "part", to = "pip" }] },
                 { do = "core back", date = 2025-03-02, line = "rack", amount = 15.00, purse = "cash" })");
    CHECK(shop.refusal(void_of(1)) == rests(2, "something that went back or to the shelf", 1));
    shop.post(void_of(2));
    CHECK(shop.refusal(void_of(1)) == "accepted");
  }
  SECTION("stock that was drawn") {
    shop.post(
        R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", paid = "cash", total = 10.00, line = [
                   { what = "gloves", unit = 10.00, kind = "stock", stock = "gloves", gives = 100 }] },
                 { do = "draw", date = 2025-03-02, vehicle = "pip", stock = "gloves", qty = 1 })");
    CHECK(shop.refusal(void_of(1)) ==
          "void: on 2025-03-02 what lies on the shelf of \"gloves\" would be -1 (entry 2, draw), expected 0 "
          "or more; "
          "nothing was recorded");
    shop.post(void_of(2));
    CHECK(shop.refusal(void_of(1)) == "accepted");
  }
  SECTION("a buyer's deposit that was kept, and one on a tool that came back") {
    shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 300.00, purse = "cash" },
                 { do = "buyer deposit", date = 2025-03-02, vehicle = "pip", amount = 50.00, purse = "cash" },
                 { do = "deposit kept", date = 2025-03-03, vehicle = "pip", amount = 30.00 },
                 { do = "tool deposit", date = 2025-03-04, what = "puller", amount = 60.00, purse = "cash" },
                 { do = "tool deposit back", date = 2025-03-05, what = "puller", amount = 60.00, purse = "cash" })");
    CHECK(shop.refusal(void_of(2)) == used(2, "the deposit held for pip", 3, "deposit kept"));
    CHECK(shop.refusal(void_of(4)) == used(4, "the deposit on \"puller\"", 5, "tool deposit back"));
    CHECK(shop.refusal(void_of(3)) == "accepted");
    CHECK(shop.refusal(void_of(5)) == "accepted");
  }
  SECTION("what was owed and paid since") {
    shop.post(
        R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", on_account = true, total = 10.00, line = [
                   { what = "lamp", unit = 10.00, kind = "overhead" }] },
                 { do = "pay", date = 2025-03-02, supplier = "Harrow", amount = 4.00, purse = "cash" },
                 { do = "buy", date = 2025-03-03, vehicle = "pip", price = 300.00, purse = "cash" },
                 { do = "sell", date = 2025-03-04, vehicle = "pip", price = 500.00, tax = 35.00, purse = "cash" },
                 { do = "sales tax paid", date = 2025-03-05, amount = 35.00, purse = "cash" })");
    CHECK(shop.refusal(void_of(1)) == used(1, "what is owed to \"Harrow\"", 2, "pay"));
    CHECK(shop.refusal(void_of(4)) == used(4, "the sales tax that is owed", 5, "sales tax paid"));
    shop.post(void_of(2));
    CHECK(shop.refusal(void_of(1)) == "accepted");
  }
  SECTION("a cost that was recovered, and recovered money that was given back") {
    shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 300.00, purse = "cash" },
                 { do = "recover", date = 2025-03-02, vehicle = "pip", what = "engine", amount = 350.00, purse = "cash" },
                 { do = "recover back", date = 2025-03-03, vehicle = "pip", what = "engine", amount = 60.00, purse = "cash" })");
    CHECK(shop.refusal(void_of(1)) == "accepted");  // what was recovered is income then
    CHECK(shop.refusal(void_of(2)) == used(2, "what was recovered from pip", 3, "recover back"));
    shop.post(void_of(3));
    shop.post(void_of(2));
    CHECK(shop.refusal(void_of(1)) == "accepted");
  }
}

TEST_CASE(
    "what is dated in a closed period is entered, whatever the event, and counts from the first open day",
    "[book]") {
  Shop shop;
  // A book in which each event below is accepted as long as the period is open.
  shop.post(R"({ do = "buy", date = 2024-12-01, vehicle = "pip", price = 300.00, purse = "cash" },
               { do = "buy", date = 2024-12-01, vehicle = "tern", price = 300.00, purse = "cash" },
               { do = "buyer deposit", date = 2024-12-01, vehicle = "pip", amount = 50.00, purse = "cash" },
               { do = "tool deposit", date = 2024-12-01, what = "puller", amount = 60.00, purse = "cash" },
               { do = "receipt", date = 2024-12-01, supplier = "Harrow", on_account = true, total = 42.00, line = [
                 { id = "rack", what = "rack", unit = 20.00, core = 15.00, kind = "part", to = "pip" },
                 { id = "oil", what = "oil", amount = 7.00, kind = "stock", stock = "oil", gives = 7 }] },
               { do = "recover", date = 2024-12-01, vehicle = "pip", what = "seat", amount = 20.00, purse = "cash" },
               { do = "buy", date = 2024-12-01, vehicle = "gull", price = 1.00, purse = "cash" },
               { do = "sell", date = 2024-12-02, vehicle = "gull", price = 9.00, tax = 1.00, purse = "cash" })");
  std::ofstream(shop.folder() / "a.jpg") << "a";
  const std::map<std::string, std::string> events = {
      {"owner in", R"(purse = "cash", amount = 1)"},
      {"owner out", R"(purse = "cash", amount = 1)"},
      {"move", R"(from = "cash", to = "bank", amount = 1)"},
      {"buy", R"(vehicle = "new", price = 1, purse = "cash")"},
      {"pass", R"(vehicle = "wren", why = "rust")"},
      {"receipt",
       R"(supplier = "Harrow", total = 1, paid = "cash", line = [{ what = "nut", amount = 1, kind = "overhead" }])"},
      {"return", R"(line = "rack", goods = 20, purse = "cash")"},
      {"core back", R"(line = "rack", amount = 15, purse = "cash")"},
      {"tool deposit", R"(what = "jack", amount = 1, purse = "cash")"},
      {"tool deposit back", R"(what = "puller", amount = 1, purse = "cash")"},
      {"hours", R"(vehicle = "pip", operation = "brakes", own = 1)"},
      {"draw", R"(vehicle = "pip", stock = "oil", qty = 1)"},
      {"count", R"(stock = "oil", qty = 6)"},
      {"shelve", R"(line = "rack", stock = "racks", qty = 1)"},
      {"transfer", R"(from = "pip", to = "tern", what = "lamp", amount = 1)"},
      {"recover", R"(vehicle = "pip", what = "lamp", amount = 1, purse = "cash")"},
      {"recover back", R"(vehicle = "pip", what = "seat", amount = 1, purse = "cash")"},
      {"advertised", R"(vehicle = "pip", price = 1)"},
      {"buyer deposit", R"(vehicle = "pip", amount = 1, purse = "cash")"},
      {"deposit kept", R"(vehicle = "pip", amount = 1)"},
      {"deposit back", R"(vehicle = "pip", amount = 1, purse = "cash")"},
      {"sell", R"(vehicle = "pip", price = 1, purse = "cash")"},
      {"selling cost", R"(vehicle = "pip", what = "advert", amount = 1, purse = "cash")"},
      {"part out", R"(vehicle = "tern", still_brings = 1)"},
      {"write off", R"(vehicle = "tern")"},
      {"trip", R"(vehicle = "pip", distance = 1, why = "parts")"},
      {"finding", R"(vehicle = "pip", text = "rot")"},
      {"plan", R"(vehicle = "pip", name = "heater matrix", amount = 1)"},
      {"done", R"(vehicle = "pip")"},
      {"pay", R"(supplier = "Harrow", amount = 1, purse = "cash")"},
      {"sales tax paid", R"(amount = 1, purse = "cash")"},
      {"attach", R"(vehicle = "pip", file = "a.jpg")"},
  };
  const auto event = [&](const std::string& word, const std::string& day) {
    return "{ do = \"" + word + "\", date = " + day + ", " + events.at(word) + " }";
  };
  for (const std::string& word : event_words()) {
    if (word == "appraisal" || word == "under" || word == "void" || word == "close")
      continue;  // the first two are no entries; the others are told below
    INFO(word);
    CHECK(shop.refusal(event(word, "2024-12-31")) == "accepted");
  }
  shop.record([](Recording& recording) { close(recording, on("2024-12-31")); });
  for (const auto& [word, rest] : events) {
    INFO(word);
    Recording recording(shop.book(), shop.now, shop.today);  // not kept
    const EntryId entry =
        book::post(recording, "event = [" + event(word, "2024-12-31") + "]", "events.toml", shop.folder(), {})
            .last;
    CHECK(load_entry(shop.book(), entry).day == on("2025-01-01"));
    const auto& remarks = recording.remarks();
    CHECK(
        std::find(remarks.begin(), remarks.end(),
                  word + ": the day 2024-12-31 lies in a period that is closed: it counts from 2025-01-01") !=
        remarks.end());
  }
}

TEST_CASE("the end of a period is an entry that is not taken back, and an export keeps its place", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2024-12-30, purse = "cash", amount = 5.00 },
               { do = "close", date = 2024-12-31 },
               { do = "owner in", date = 2024-12-30, purse = "cash", amount = 7.00 })");
  CHECK(shop.purse("cash", on("2024-12-31")) == usd("5"));
  CHECK(shop.purse("cash", on("2025-01-01")) == usd("12"));
  CHECK(shop.refusal(void_of(2)) ==
        "void: entry 2 ends the period up to 2024-12-31, and that is not taken back");
  CHECK(closed_until(shop.book()) == on("2024-12-31"));
  // Taken back it counted until then.
  shop.post(void_of(1));
  CHECK(shop.purse("cash", on("2025-05-31")) == usd("12"));
  CHECK(shop.purse("cash", on("2025-06-01")) == usd("7"));
}

TEST_CASE("the end of a period only moves forward", "[book]") {
  Shop shop;
  shop.record([](Recording& recording) { close(recording, on("2025-03-31")); });
  CHECK(shop.refusal_of([](Recording& recording) { close(recording, on("2025-03-30")); }) ==
        "close: the book is closed up to 2025-03-31 already, expected that day or a later one");
  CHECK(shop.refusal_of([](Recording& recording) { close(recording, on("2025-03-31")); }) == "accepted");
}

TEST_CASE("a setting refuses a name it does not know, naming the nearest, and a value that does not fit",
          "[book]") {
  Shop shop;
  const auto setting = [&](const std::string& name, const std::string& value) {
    return shop.refusal_of([&](Recording& recording) { set(recording, name, value); });
  };
  CHECK(setting("houre", "20") == "set: there is no setting \"houre\", did you mean \"hour\"?");
  CHECK(setting("currency", "EUR") ==
        "set: the currency of a book is never changed, expected hour, dealer-limit, tools, paper-size, "
        "backup-folder or purse.NAME");
  CHECK(setting("paper-size", "a5") ==
        "set paper-size: found \"a5\", expected a4 or letter, did you mean \"a4\"?");
  CHECK(setting("backup-folder", "copies") ==
        "set backup-folder: found \"copies\", expected a folder by its whole path, from / on");
  CHECK(setting("colour", "20") ==
        "set: there is no setting \"colour\"; known: hour, dealer-limit, tools, paper-size, backup-folder, "
        "purse.NAME");
  CHECK(setting("purse.", "asset") ==
        "set: there is no setting \"purse.\"; known: hour, dealer-limit, tools, paper-size, backup-folder, "
        "purse.NAME");
  CHECK(setting("hour", "twenty") ==
        "set hour: found \"twenty\", expected an amount in USD with at most 2 decimals, such as 1250.00");
  CHECK(setting("hour", "-1") == "set hour: found -1, expected 0 or more");
  CHECK(setting("dealer-limit", "0") ==
        "set dealer-limit: found \"0\", expected a whole number from 1 to 1000");
  CHECK(
      setting("purse.visa", "liabilty") ==
      "set purse.visa: found \"liabilty\", expected asset, liability or credit, did you mean \"liability\"?");
  CHECK(setting("closed", "soon") ==
        "set closed: found \"soon\", expected a day written YYYY-MM-DD, such as 2026-05-02");
  CHECK(setting("purse.visa", "liability") == "accepted");
}

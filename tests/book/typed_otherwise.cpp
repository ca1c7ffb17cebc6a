// What is decided when something goes back is stored with it, so that another order of typing changes no figure of
// any day.
#include "book/ledger/line.h"
#include "book/walk.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

// Three injectors with a deposit of 10.00 each, taxed: 32.00 in all, which does not part evenly.
const char* const injectors = R"(
  { do = "receipt", date = 2025-03-01, supplier = "Harrow", number = "1", paid = "cash", tax = 2.00, total = 92.00, line = [
      { id = "inj", what = "injector", qty = 3, unit = 20.00, core = 10.00, tax_on_core = true, kind = "part", to = "pip" }] })";
const char* const press = R"(
  { do = "receipt", date = 2025-03-01, supplier = "Harrow", number = "2", paid = "cash", total = 100.00, line = [
      { id = "press", what = "press", qty = 2, unit = 50.00, kind = "tool" }] },
  { do = "transfer", date = 2025-03-02, from = "tools", to = "pip", what = "press", line = "press", amount = 60.00 })";

std::string event_of(Shop& shop, EntryId entry) { return load_entry(shop.book(), entry).event; }

}  // namespace

TEST_CASE("whose unit of a deposit it is, is decided once and goes with the event", "[book][days]") {
  Shop shop;
  shop.post(injectors);
  const EntryId late = shop.post(R"({ do = "core back", date = 2025-03-20, line = "inj", amount = 10.00 })");
  const EntryId early = shop.post(R"({ do = "core back", date = 2025-03-10, line = "inj", amount = 10.00 })");
  CHECK(event_of(shop, late).find("deposit = 10.67") != std::string::npos);
  CHECK(event_of(shop, early).find("deposit = 10.66") != std::string::npos);
  Shop other;  // in the order of days
  other.post(injectors);
  other.post(event_of(shop, early));
  other.post(event_of(shop, late));
  for (const char* day : {"2025-03-09", "2025-03-10", "2025-03-19", "2025-03-20"}) {
    INFO(day);
    CHECK(other.due(on(day)).front().amount == shop.due(on(day)).front().amount);
    CHECK(other.show("pip", on(day)).cost == shop.show("pip", on(day)).cost);
  }
  CHECK(shop.due(on("2025-03-10")).front().amount == usd("21.34"));
  CHECK(shop.refusal(
            R"({ do = "core back", date = 2025-03-21, line = "inj", amount = 10.00, deposit = 10.60 })") ==
        "core back: a deposit of 10.60 on the core of line inj (\"injector\"), expected 10.67, what is left "
        "of it");
}

TEST_CASE("out of which cars a tool comes is decided once, and never more than stands in them later",
          "[book][days]") {
  Shop shop;
  shop.post(press);
  const EntryId late =
      shop.post(R"({ do = "return", date = 2025-03-20, line = "press", goods = 50.00, purse = "cash" })");
  CHECK(event_of(shop, late).find(R"(out_of = [{ vehicle = "pip", amount = 50.00 }])") != std::string::npos);
  // What is left in pip on every day from then on is 10.00, though 60.00 stood there on that day.
  const EntryId early =
      shop.post(R"({ do = "return", date = 2025-03-10, line = "press", goods = 50.00, purse = "cash" })");
  CHECK(event_of(shop, early).find(R"(out_of = [{ vehicle = "pip", amount = 10.00 }])") != std::string::npos);
  CHECK(shop.show("pip", on("2025-03-10")).cost == usd("50"));
  CHECK(shop.show("pip").cost == usd("0"));
  CHECK(shop.balance("tools") == usd("0"));
  Shop other;
  other.post(press);
  other.post(event_of(shop, early) + ", " + event_of(shop, late));
  for (const char* day : {"2025-03-10", "2025-03-20"}) {
    INFO(day);
    CHECK(other.show("pip", on(day)).cost == shop.show("pip", on(day)).cost);
    CHECK(other.balance("tools", "", on(day)) == shop.balance("tools", "", on(day)));
  }
  CHECK(shop.health().findings.empty());
}

TEST_CASE("a tool does not come out of a car by more than it was charged", "[book]") {
  Shop shop;
  shop.post(press);
  CHECK(shop.refusal(
            R"({ do = "return", date = 2025-03-20, line = "press", qty = 2, goods = 100.00, purse = "cash",
                          out_of = [{ vehicle = "pip", amount = 70.00 }] })") ==
        "return: 70.00 of line press (\"press\") out of pip, expected more than 0 and at most 60.00, which "
        "it is charged");
}

TEST_CASE("a part that was moved comes off the car in which it stands when it goes back", "[book]") {
  Shop shop;
  shop.post(R"(
    { do = "receipt", date = 2025-03-01, supplier = "Harrow", paid = "cash", total = 64.00, line = [
        { id = "pump", what = "coolant pump", unit = 64.00, kind = "part", to = "plover" }] },
    { do = "transfer", date = 2025-03-05, from = "plover", to = "dunlin", what = "coolant pump", line = "pump", amount = 60.00 })");
  CHECK(shop.show("dunlin").cost == usd("60"));
  shop.post(R"({ do = "return", date = 2025-03-09, line = "pump", goods = 64.00, purse = "cash" })");
  CHECK(shop.show("dunlin").cost == usd("0"));  // as far as it stands there
  CHECK(shop.show("plover").cost == usd("0"));  // 64 - 60 - 4
  CHECK(shop.purse("cash") == usd("0"));
  CHECK(shop.health().findings.empty());
}

// What goes back is refused: deposits, cores that come along, tools, and where the money went.
#include "book/walk.h"

using namespace nonrunner::book;

namespace {
std::string back_of(const std::string& rest) {
  return "{ do = \"return\", date = 2025-03-05, " + rest + " }";
}
}  // namespace

TEST_CASE("a return with a deposit refuses one of which no core is out, then more cores than are", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", total = 80.00, line = [
                 { id = "hose", what = "hose", unit = 10.00, kind = "part", to = "pip" },
                 { id = "pump", what = "pump", qty = 2, unit = 25.00, core = 10.00, kind = "part", to = "pip" }] })");
  walk(shop, {{back_of(R"(line = "hose", qty = 1, goods = 10, core = 5, purse = "cash")"),
               "return: a deposit of 5.00 for line hose (\"hose\"), of which no core is still out"},
              {back_of(R"(line = "pump", qty = 1, goods = 25, core = 10, cores = 2, purse = "cash")"),
               "return: the core of 2 of line pump (\"pump\") comes along, expected at most 1"},
              {back_of(R"(line = "pump", qty = 1, goods = 25, core = 10, cores = 1, purse = "cash")"),
               "accepted"}});
}

TEST_CASE("a tool goes back out of the tools as far as they hold its cost, else out of the car that is named",
          "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 100.00, purse = "cash" },
               { do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", total = 40.00, line = [
                 { id = "jack", what = "jack", unit = 40.00, kind = "tool" }] },
               { do = "transfer", date = 2025-03-03, from = "tools", to = "pip", what = "lifting gear", amount = 15.00 })");
  walk(shop, {{back_of(R"(line = "jack", qty = 1, goods = 40, purse = "cash")"),
               "return: 40.00 for line jack (\"jack\"), but the tools hold 25.00 of their cost; say by "
               "\"from\" which "
               "car it was charged to"},
              {back_of(R"(line = "jack", qty = 1, goods = 25, purse = "cash")"), "accepted"}});
  shop.post(back_of(R"(line = "jack", qty = 1, goods = 15, from = "pip", purse = "cash")"));
  CHECK(shop.show("pip").cost == usd("100"));
}

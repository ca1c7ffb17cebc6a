// What comes back of a paper that was on account: off what is owed first, then into a purse.
#include "book/care/export.h"
#include "book/events/post.h"
#include "book/fixture.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {
const char* const paper =
    R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", number = "12", on_account = true, paid = { card = 20.00 }, total = 90.00,
         line = [{ id = "V1", what = "valve", qty = 3, unit = 20.00, core = 10.00, kind = "part", to = "pip" }] })";
}

TEST_CASE("what goes back of a paper on account lowers what is owed, and only the rest goes into a purse",
          "[book]") {
  Shop shop;
  shop.post(paper);
  REQUIRE(shop.balance("payable", "Harrow") == usd("-70"));
  shop.post(
      R"({ do = "return", date = 2025-03-05, line = "V1", qty = 2, goods = 40.00, restocking = 4.00 })");
  CHECK(shop.balance("payable", "Harrow") == usd("-34"));
  CHECK(shop.show("pip").cost == usd("24"));
  shop.post(R"({ do = "core back", date = 2025-03-06, line = "V1", qty = 2, amount = 19.00 })");
  CHECK(shop.balance("payable", "Harrow") == usd("-15"));
  CHECK(shop.purse("card") == usd("-20"));
  // It reaches no further than what is owed: the rest goes to the purse that paid some of the paper.
  shop.post(R"({ do = "return", date = 2025-03-07, line = "V1", goods = 20.00 })");
  CHECK(shop.balance("payable", "Harrow") == Money{});
  CHECK(shop.purse("card") == usd("-15"));
}

TEST_CASE("the money goes where the person says, and after the payment to the purse that paid", "[book]") {
  Shop shop;
  shop.post(paper);
  shop.post(R"({ do = "return", date = 2025-03-05, line = "V1", goods = 20.00, purse = "cash" },
               { do = "core back", date = 2025-03-05, line = "V1", amount = 10.00, purse = "cash", on_account = 4.00 })");
  CHECK(shop.purse("cash") == usd("26"));
  CHECK(shop.balance("payable", "Harrow") == usd("-66"));
  Shop other;
  other.post(
      R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", on_account = true, total = 60.00,
           line = [{ id = "V1", what = "valve", amount = 60.00, kind = "part", to = "pip" }] },
         { do = "pay", date = 2025-03-02, supplier = "Harrow", amount = 60.00, purse = "bank" },
         { do = "return", date = 2025-03-03, line = "V1", goods = 60.00 })");
  CHECK(other.purse("bank") == Money{});
  // A paper that was paid at once is given back as it was paid, whatever is owed for others.
  other.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", number = "2", on_account = true, total = 60.00,
           line = [{ what = "hose", amount = 60.00, kind = "part", to = "pip" }] },
         { do = "receipt", date = 2025-03-01, supplier = "Harrow", number = "3", paid = "cash", total = 5.00,
           line = [{ id = "clip", what = "clip", amount = 5.00, kind = "part", to = "pip" }] },
         { do = "return", date = 2025-03-03, line = "clip", goods = 5.00 })");
  CHECK(other.balance("payable", "Harrow") == usd("-60"));
  CHECK(other.purse("cash") == Money{});
}

TEST_CASE("what came off the account comes off it again when the events are posted anew", "[book]") {
  Shop shop;
  shop.post(paper);
  shop.post(R"({ do = "return", date = 2025-03-05, line = "V1", qty = 3, goods = 60.00 },
               { do = "core back", date = 2025-03-06, line = "V1", qty = 3, amount = 30.00 })");
  export_to(shop.book(), shop.folder() / "out", true, shop.today);
  Shop again;
  again.record([&](Recording& recording) {
    const std::string file = (shop.folder() / "out" / "events.toml").string();
    post(recording, read_file(file), file, shop.folder() / "out", {});
  });
  CHECK(again.balance("payable", "Harrow") == Money{});
  CHECK(again.purse("card") == usd("0"));
  for (EntryId entry = 1; entry <= 3; ++entry)
    CHECK(load_entry(again.book(), entry).event == load_entry(shop.book(), entry).event);
}

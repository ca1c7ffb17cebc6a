// Tools as an asset, where the shop says so: from then on, and not what was bought before.
#include "answers/year.h"
#include "book/care/export.h"
#include "book/events/post.h"
#include "book/fixture.h"
#include "book/ledger/settings.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {
std::string tool(const std::string& id, const std::string& amount, const std::string& rest = "") {
  return "{ do = \"receipt\", date = 2025-03-01, supplier = \"Harrow\", number = \"" + id +
         "\", paid = \"cash\", total = " + amount + ", " + rest + " line = [{ id = \"" + id +
         "\", what = \"" + id + "\", amount = " + amount + ", kind = \"tool\" }] }";
}
Money kept(Shop& shop) { return shop.balance("tools", "asset"); }

void fill(Shop& shop) {
  shop.post(tool("jack", "30.00"));
  shop.record([](Recording& recording) { set(recording, "tools", "asset"); });
  shop.post(tool("press", "200.00"));
  shop.post(tool("rags", "5.00", "tools = \"expense\","));
}
}  // namespace

TEST_CASE("tools bought once they are set to be an asset stand there, those before stay an expense",
          "[book]") {
  Shop shop;
  fill(shop);
  CHECK(shop.balance("tools") == usd("35"));
  CHECK(kept(shop) == usd("200"));
  // What goes back of a line goes off where the line stands, whatever is set now.
  shop.record([](Recording& recording) { set(recording, "tools", "expense"); });
  shop.post(R"({ do = "return", date = 2025-03-02, line = "press", goods = 200.00, restocking = 40.00 })");
  CHECK(kept(shop) == usd("40"));
  shop.post(R"({ do = "return", date = 2025-03-02, line = "jack", goods = 30.00 })");
  CHECK(shop.balance("tools") == usd("5"));
  CHECK(
      shop.refusal(tool("x", "1.00", "tools = \"assets\",")) ==
      "\"tools\" in the event \"receipt\" is \"assets\", expected asset or expense, did you mean \"asset\"?");
}

TEST_CASE("a tool bought as an expense stays one, though a tool kept as an asset goes back on its paper",
          "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", number = "1", paid = "cash", total = 90.00, tools = "asset",
                 line = [{ id = "hoist", what = "hoist", unit = 90.00, kind = "tool" }] },
               { do = "receipt", date = 2025-03-02, supplier = "Harrow", number = "2", paid = { cash = -60.00 }, total = -60.00, tools = "expense",
                 line = [{ return_of = "hoist", what = "hoist", amount = -90.00 }, { id = "saw", what = "saw", unit = 30.00, kind = "tool" }] })");
  CHECK(kept(shop) == Money{});
  CHECK(shop.balance("tools") == usd("30"));
  shop.post(R"({ do = "return", date = 2025-03-03, line = "saw", goods = 30.00, purse = "cash" })");
  CHECK(kept(shop) == Money{});
  CHECK(shop.balance("tools") == Money{});
}

TEST_CASE("tools kept as an asset are charged to a car first, and go to overhead when they are worn out",
          "[book]") {
  Shop shop;
  fill(shop);
  shop.post(
      R"({ do = "transfer", date = 2025-03-02, from = "tools", to = "pip", what = "press", amount = 210.00 })");
  CHECK(kept(shop) == Money{});
  CHECK(shop.balance("tools") == usd("25"));
  CHECK(shop.show("pip").cost == usd("210"));
  shop.post(tool("hoist", "90.00", "tools = \"asset\","));
  shop.post(
      R"({ do = "transfer", date = 2025-03-03, from = "tools", to = "overhead", what = "hoist, worn", amount = 90.00 })");
  CHECK(kept(shop) == Money{});
  CHECK(shop.balance("overhead") == usd("90"));
  CHECK(
      shop.refusal(
          R"({ do = "transfer", date = 2025-03-03, from = "tools", to = "overhead", what = "x", amount = 1.00 })") ==
      "transfer: 1.00 off tools, which carries a cost of 0.00; expected at most that");
}

TEST_CASE("the year shows tools kept as an asset as such, and no part of the result", "[book]") {
  Shop shop;
  shop.today = on("2026-06-30");
  fill(shop);
  const auto first = answers::year_figures(shop.book(), 2025, shop.today);
  CHECK(first.result == usd("-35"));
  CHECK(first.tools.size() == 2);
  REQUIRE(first.tools_kept.size() == 1);
  CHECK(first.tools_kept.front().what == "press");
  shop.post(
      R"({ do = "transfer", date = 2026-03-03, from = "tools", to = "overhead", what = "a year's wear", amount = 50.00 })");
  const auto second = answers::year_figures(shop.book(), 2026, shop.today);
  CHECK(second.result == usd("-50"));
  REQUIRE(second.tools_kept.size() == 2);
  CHECK(second.tools_kept.front().amount == usd("200"));
  CHECK(second.tools_kept.back().amount == usd("-50"));
  bool in_trial = false;
  for (const auto& account : second.trial)
    in_trial |= account.kind == "tools" && account.name == "asset" && account.balance == usd("150");
  CHECK(in_trial);
}

TEST_CASE("an export makes the same tools again, bought before and after they were an asset", "[book]") {
  Shop shop;
  fill(shop);
  export_to(shop.book(), shop.folder() / "out", true, shop.today);
  Shop again;
  again.record([&](Recording& recording) {
    const std::string file = (shop.folder() / "out" / "events.toml").string();
    post(recording, read_file(file), file, shop.folder() / "out", {});
  });
  CHECK(again.balance("tools") == usd("35"));
  CHECK(kept(again) == usd("200"));
  CHECK(settings(again.book()).at("tools") == "asset");
}

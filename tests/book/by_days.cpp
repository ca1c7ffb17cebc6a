// Days beat the order of typing: small stories, each figure worked out by hand beside it.
#include "book/events/goods_back.h"
#include "book/events/post.h"
#include "book/ledger/position.h"
#include "book/questions/board.h"
#include "book/questions/period.h"
#include "book/walk.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {

const char* const bought =
    R"({ do = "buy", date = 2024-11-01, vehicle = "pip", price = 1000.00, purse = "cash" })";
std::string sold(const std::string& day, const std::string& price) {
  return "{ do = \"sell\", date = " + day + ", vehicle = \"pip\", price = " + price + ", purse = \"cash\" }";
}
std::string pump(const std::string& day, const std::string& amount) {
  return "{ do = \"receipt\", date = " + day + ", supplier = \"Harrow\", paid = \"cash\", total = " + amount +
         ", line = [{ what = \"pump\", amount = " + amount + ", kind = \"part\", to = \"pip\" }] }";
}
Money moved(Shop& shop, const std::string& kind, const std::string& from, const std::string& to) {
  Money sum;
  for (const AccountMovement& each : movements(shop.book(), on(from), on(to)))
    if (each.kind == kind) sum += each.sum;
  return sum;
}

}  // namespace

TEST_CASE("a cost counts before or after the sale by its day, whichever was typed first", "[book][days]") {
  for (const bool late_first : {true, false}) {
    Shop shop;
    const std::string sale = sold("2024-12-28", "1500.00"), early = pump("2024-12-20", "40.00"),
                      late = pump("2025-01-05", "30.00");
    shop.post(std::string(bought) + "," +
              (late_first ? late + "," + sale + "," + early : early + "," + sale + "," + late));
    CHECK(shop.show("pip").cost == usd("1040"));
    CHECK(shop.show("pip").late_cost == usd("30"));
    CHECK(shop.show("pip").first_cash_profit == usd("460"));
    CHECK(shop.show("pip").cash_profit == usd("430"));
    CHECK(shop.show("pip", on("2024-12-31")).carried == Money{});
    CHECK(moved(shop, account::cost_of_sale, "2024-01-01", "2024-12-31") == usd("1040"));
    CHECK(moved(shop, account::late_cost, "2025-01-01", "2025-12-31") == usd("30"));
  }
}

TEST_CASE("a sale that falls through gives back what was booked while it stood, in the year too",
          "[book][days]") {
  Shop shop;
  shop.post(
      std::string(bought) + "," + sold("2024-11-20", "1500.00") + "," + pump("2024-11-25", "30.00") +
      R"(, { do = "recover", date = 2024-11-26, vehicle = "pip", what = "seat", amount = 100.00, purse = "cash" },
               { do = "void", date = 2024-12-02, entry = 2, why = "the cheque bounced", later = true })");
  CHECK(shop.show("pip", on("2024-11-30")).cash_profit == usd("570"));  // 1500 - 1000 - 30 + 100
  CHECK(shop.show("pip").cost == usd("1030"));
  CHECK(shop.show("pip").carried == usd("930"));
  CHECK(moved(shop, account::late_cost, "2024-01-01", "2024-12-31") == Money{});
  CHECK(moved(shop, account::recovered_income, "2024-01-01", "2024-12-31") == Money{});
  CHECK(moved(shop, account::vehicle_cost, "2024-01-01", "2024-12-31") == usd("1030"));
  shop.post(sold("2025-02-01", "1400.00"));
  CHECK(shop.show("pip").cash_profit == usd("470"));
  CHECK(moved(shop, account::cost_of_sale, "2025-01-01", "2025-12-31") == usd("930"));
}

TEST_CASE("one car is not sold twice at one time, whatever the days say", "[book][days]") {
  Shop shop;
  shop.post(std::string(bought) + "," + sold("2024-12-20", "1500.00") +
            R"(, { do = "void", date = 2025-01-05, entry = 2, why = "the cheque bounced", later = true })");
  CHECK(shop.refusal(sold("2024-12-28", "1400.00")) ==
        "sell: pip was sold on 2024-12-20 (entry 2), and that stood until 2025-01-05; expected that day or a "
        "later one");
  CHECK(shop.refusal(sold("2025-01-05", "1400.00")) == "accepted");
}

TEST_CASE("a car that was passed carries nothing, and carries it all again once that is taken back",
          "[book][days]") {
  Shop shop;
  shop.post(
      R"({ do = "hours", date = 2025-03-01, vehicle = "wren", operation = "look", paid = 1, rate = 30.00, purse = "cash" },
               { do = "pass", date = 2025-03-02, vehicle = "wren", why = "rust" },
               { do = "hours", date = 2025-03-03, vehicle = "wren", operation = "scan", paid = 1, rate = 12.00, purse = "cash" })");
  CHECK(shop.show("wren").looking == usd("42"));
  CHECK(shop.show("wren", on("2025-03-01")).carried == usd("30"));
  CHECK(moved(shop, account::looking, "2025-01-01", "2025-12-31") == usd("42"));
  shop.post(R"({ do = "void", date = 2025-03-04, entry = 2, why = "no rust" })");
  CHECK(shop.show("wren").carried == usd("42"));
  CHECK(moved(shop, account::looking, "2025-01-01", "2025-12-31") == Money{});
}

TEST_CASE("what was recovered and what was put in are sums against each other, break-even never below zero",
          "[book][days]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "gull", price = 100.00, purse = "cash" },
               { do = "recover", date = 2025-03-02, vehicle = "gull", what = "engine", amount = 150.00, purse = "cash" })");
  CHECK(shop.show("gull").recovered_beyond_cost == usd("50"));
  CHECK(shop.show("gull").break_even_price == Money{});
  shop.post(
      R"({ do = "hours", date = 2025-03-03, vehicle = "gull", operation = "pump", paid = 1, rate = 30.00, purse = "cash" })");
  CHECK(shop.show("gull").recovered_beyond_cost == usd("20"));
  CHECK(shop.show("gull").carried == Money{});
  CHECK(moved(shop, account::recovered_income, "2025-01-01", "2025-12-31") == usd("-20"));
}

TEST_CASE("of a sale taken back later the costs stay paid, but for those that are left out", "[book][days]") {
  const std::string sale =
      R"({ do = "sell", date = 2025-03-10, vehicle = "pip", price = 1500.00, commission = 0.1, purse = "cash",
           costs = [{ name = "advert", amount = 20.00, purse = "card" }, { name = "tow", amount = 35.00 }] })";
  const auto after = [&](const std::string& said) {
    Shop shop;
    shop.post(std::string(bought) + "," + sale);
    shop.post(R"({ do = "void", date = 2025-04-02, entry = 2, why = "the cheque bounced")" + said + " }");
    return std::pair(shop.show("pip").selling_costs, shop.purse("card"));
  };
  CHECK(after(", later = true") == std::pair(usd("55"), usd("-20")));
  CHECK(after(", later = true, stays = [\"advert\"]") == std::pair(usd("20"), usd("-20")));
  CHECK(after(", later = true, stays = []") == std::pair(Money{}, Money{}));
  CHECK(after("") == std::pair(Money{}, Money{}));  // it never was
  Shop shop;
  shop.post(std::string(bought) + "," + sale);
  CHECK(shop.refusal(
            R"({ do = "void", date = 2025-04-02, entry = 2, why = "x", later = true, stays = ["wash"] })") ==
        "void: entry 2 has no cost \"wash\" that could stay; it has: advert");
  shop.post(R"({ do = "void", date = 2025-04-02, entry = 2, why = "the cheque bounced", later = true })");
  CHECK(shop.remarks == std::vector<std::string>{"stays paid: 20.00 for advert from card",
                                                 "stays paid: 35.00 for tow from cash"});
}

TEST_CASE("nothing is drawn before it was bought, whatever is there by now", "[book][days]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-01-05, supplier = "Harrow", paid = "cash", total = 30.00, line = [
                 { what = "oil", qty = 10, unit = 3.00, kind = "stock", stock = "oil" }] })");
  CHECK(shop.refusal(R"({ do = "draw", date = 2024-12-31, vehicle = "pip", stock = "oil", qty = 4 })") ==
        "draw: on 2024-12-31 what lies on the shelf of \"oil\" would be -4, expected 0 or more; nothing was "
        "recorded");
}

TEST_CASE("the average of the shelf follows days: a box typed late changes what was drawn since",
          "[book][days]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-01-05, supplier = "Harrow", paid = "cash", total = 10.00, line = [
                 { what = "oil", qty = 10, unit = 1.00, kind = "stock", stock = "oil" }] },
               { do = "draw", date = 2025-01-10, vehicle = "pip", stock = "oil", qty = 4 },
               { do = "draw", date = 2025-01-20, vehicle = "teal", stock = "oil", qty = 2 })");
  CHECK(shop.show("pip").cost == usd("4"));
  // Ten at 3.00 of the day before: 20 at 40.00, four are 8.00, then two of 16 at 32.00 are 4.00.
  shop.post(
      R"({ do = "receipt", date = 2025-01-09, supplier = "Millgate", paid = "cash", total = 30.00, line = [
                 { what = "oil", qty = 10, unit = 3.00, kind = "stock", stock = "oil" }] })");
  CHECK(shop.show("pip").cost == usd("8"));
  CHECK(shop.show("teal").cost == usd("4"));
  CHECK(shop.shelf("oil").amount == usd("28"));
  CHECK(shop.show("pip", on("2025-01-10")).cost == usd("8"));
  CHECK(shop.remarks == std::vector<std::string>{"the average of \"oil\" by days changed what 2 cars drew"});
  CHECK(shop.health().findings.empty());
  // Taken back, it never was.
  shop.post(R"({ do = "void", date = 2025-02-01, entry = 4, why = "another shop" })");
  CHECK(shop.show("pip").cost == usd("4"));
  CHECK(shop.show("teal").cost == usd("2"));
  CHECK(shop.refusal(R"({ do = "void", date = 2025-02-01, entry = 5, why = "x" })") ==
        "void: entry 5 follows from what was drawn and bought; void one of these instead");
}

TEST_CASE("what is taken back later changes the average from that day on, and no day before",
          "[book][days]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-01-05, supplier = "Harrow", paid = "cash", total = 10.00, line = [
                 { what = "oil", qty = 10, unit = 1.00, kind = "stock", stock = "oil" }] },
               { do = "receipt", date = 2025-01-09, supplier = "Millgate", paid = "cash", total = 30.00, line = [
                 { what = "oil", qty = 10, unit = 3.00, kind = "stock", stock = "oil" }] },
               { do = "draw", date = 2025-01-10, vehicle = "pip", stock = "oil", qty = 4 },
               { do = "void", date = 2025-02-01, entry = 2, why = "it was not mine", later = true })");
  CHECK(shop.show("pip", on("2025-01-31")).cost == usd("8"));
  CHECK(shop.show("pip").cost == usd("4"));
  CHECK(shop.shelf("oil").amount == usd("6"));
}

TEST_CASE("draws of one day have one average, shared to the cent by tag", "[book][days]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-01-05, supplier = "Harrow", paid = "cash", total = 10.00, line = [
                 { what = "oil", qty = 3, amount = 10.00, kind = "stock", stock = "oil" }] },
               { do = "draw", date = 2025-01-10, vehicle = "teal", stock = "oil", qty = 1 },
               { do = "draw", date = 2025-01-10, vehicle = "pip", stock = "oil", qty = 1 })");
  // Two of three at 10.00 are 6.67: 3.34 for the first tag, 3.33 for the other.
  CHECK(shop.show("pip").cost == usd("3.34"));
  CHECK(shop.show("teal").cost == usd("3.33"));
}

TEST_CASE("pieces that go back leave the shelf at what they cost on their own line", "[book][days]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-01-05, supplier = "Harrow", paid = "cash", total = 10.00, line = [
                 { what = "clips", qty = 10, unit = 1.00, kind = "stock", stock = "clips" }] },
               { do = "receipt", date = 2025-01-06, supplier = "Harrow", paid = "cash", total = 30.00, line = [
                 { id = "dear", what = "clips", qty = 10, unit = 3.00, kind = "stock", stock = "clips" }] },
               { do = "return", date = 2025-01-07, line = "dear", qty = 10, goods = 30.00, purse = "cash" })");
  CHECK(shop.shelf("clips").amount == usd("10"));
  CHECK(shop.balance("overhead") == Money{});
}

TEST_CASE("two counts of one item on one day that differ are refused", "[book][days]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-01-05, supplier = "Harrow", paid = "cash", total = 10.00, line = [
                 { what = "clips", qty = 10, unit = 1.00, kind = "stock", stock = "clips" }] },
               { do = "count", date = 2025-01-07, stock = "clips", qty = 8 })");
  CHECK(shop.refusal(R"({ do = "count", date = 2025-01-07, stock = "clips", qty = 7 })") ==
        "count: 7 of \"clips\", but 8 were counted on that day already, 2025-01-07; expected the same, or "
        "another "
        "day");
  CHECK(shop.refusal(R"({ do = "count", date = 2025-01-07, stock = "clips", qty = 8 })") == "accepted");
  // Bought before it, found out later: what was found stays, and less is missing.
  shop.post(
      R"({ do = "receipt", date = 2025-01-06, supplier = "Millgate", paid = "cash", total = 2.00, line = [
                 { what = "clips", qty = 2, unit = 1.00, kind = "stock", stock = "clips" }] })");
  CHECK(shop.shelf("clips").quantity == Quantity::parse("8"));
  CHECK(shop.balance("overhead") == usd("4"));
}

TEST_CASE("a return gives back what was paid for the pieces: less the discount, with its tax",
          "[book][days]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-01-05, supplier = "Harrow", paid = "cash", discount = 10.00, tax = 6.30, total = 96.30, line = [
                 { id = "hose", what = "hose", qty = 3, amount = 100.00, kind = "part", to = "pip", taxed = true }] })");
  const Refund first = full_refund(expect_line(shop.book(), "return", "hose"), Quantity::parse("1"));
  CHECK(first.goods == usd("30"));
  CHECK(first.tax == usd("2.10"));
  shop.wary = true;
  CHECK(
      shop.refusal(
          R"({ do = "return", date = 2025-01-06, line = "hose", qty = 1, goods = 30.01, purse = "cash" })") ==
      "return: 30.01 for the goods of line hose (\"hose\"), expected 0 to 30.00");
  // The shop keeps 2 of the first: the others still bring 60.
  shop.post(
      R"({ do = "return", date = 2025-01-06, line = "hose", qty = 1, goods = 28.00, tax = 2.10, purse = "cash" })");
  CHECK(full_refund(expect_line(shop.book(), "return", "hose"), Quantity::parse("2")).goods == usd("60"));
}

TEST_CASE("pieces whose core is still out take their deposit with them", "[book][days]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-01-05, supplier = "Harrow", paid = "cash", total = 64.00, line = [
                 { id = "pump", what = "pump", unit = 46.00, core = 18.00, kind = "part", to = "pip" }] },
               { do = "return", date = 2025-01-06, line = "pump", goods = 46.00, core = 18.00, purse = "cash" })");
  CHECK(shop.purse("cash") == Money{});
  CHECK(shop.due().empty());
  CHECK(shop.show("pip").cost == Money{});
}

TEST_CASE("no more cores are handed over than were bought, on one paper or two", "[book][days]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-01-05, supplier = "Harrow", paid = "cash", total = 30.00, line = [
                 { id = "rack", what = "rack", unit = 20.00, core = 10.00, kind = "part", to = "pip" }] })");
  CHECK(
      shop.refusal(
          R"({ do = "receipt", date = 2025-01-06, supplier = "Harrow", paid = "cash", total = -20.00, line = [
                 { what = "old rack", amount = -10.00, core_of = "rack" },
                 { what = "old rack again", amount = -10.00, core_of = "rack" }] })") ==
      "receipt: line \"old rack again\" hands over the core of rack, which another line of "
      "this "
      "paper does; make them one line");
}

TEST_CASE("a tool that was charged to a car goes back out of that car", "[book][days]") {
  Shop shop;
  shop.post(
      std::string(bought) +
      R"(, { do = "receipt", date = 2025-01-05, supplier = "Harrow", paid = "cash", total = 50.00, line = [
                 { id = "press", what = "press", unit = 50.00, kind = "tool" }] },
               { do = "transfer", date = 2025-01-06, from = "tools", to = "pip", what = "press", amount = 30.00 },
               { do = "return", date = 2025-01-07, line = "press", goods = 50.00, purse = "cash" })");
  CHECK(shop.show("pip").cost == usd("1000"));
  CHECK(shop.balance("tools") == Money{});
}

TEST_CASE("a full paper counts from the day of its quick line, and the printed day tells doubles",
          "[book][days]") {
  Shop shop;
  shop.post(
      std::string(bought) +
      R"(, { do = "receipt", date = 2024-12-30, paid = "cash", total = 50.00, itemised = false, line = [
                 { what = "pump, I think", amount = 50.00, kind = "part", to = "pip" }] })" +
      "," + sold("2024-12-31", "1400.00") +
      R"(, { do = "receipt", date = 2025-01-02, supplier = "Harrow", replaces = 2, paid = "cash", total = 52.00, line = [
                 { what = "pump", amount = 52.00, kind = "part", to = "pip" }] })");
  CHECK(shop.show("pip", on("2024-12-31")).cash_profit == usd("348"));
  CHECK(shop.purse("cash", on("2024-12-31")) == usd("348"));
  CHECK(
      shop.refusal(
          R"({ do = "receipt", date = 2025-01-02, supplier = "Harrow", paid = "cash", total = 52.00, line = [
                 { what = "pump", amount = 52.00, kind = "part", to = "pip" }] })") ==
      "receipt: Harrow of 2025-01-02 over 52.00 is in the book already (entry 5); if it is another one, say "
      "so "
      "with --again");
}

TEST_CASE("the paper of a quick line in a closed period stands under its day, as far as that went",
          "[book][days]") {
  Shop shop;
  shop.post(std::string(bought) +
            R"(, { do = "receipt", date = 2024-12-20, paid = "cash", total = 50.00, itemised = false, line = [
                 { what = "pump, I think", amount = 50.00, kind = "part", to = "pip" }] })" +
            "," + sold("2024-12-28", "1400.00") +
            R"(, { do = "close", date = 2024-12-31 },
               { do = "receipt", date = 2025-01-15, supplier = "Harrow", replaces = 2, paid = "cash", total = 57.00, line = [
                 { what = "pump", amount = 52.00, kind = "part", to = "pip" },
                 { what = "hose", amount = 5.00, kind = "part", to = "pip" }] })");
  CHECK(shop.show("pip", on("2024-12-31")).cash_profit == usd("350"));
  CHECK(shop.show("pip").cost == usd("1050"));
  CHECK(shop.show("pip").late_cost == usd("7"));
  CHECK(shop.show("pip").first_cash_profit == usd("350"));
  CHECK(shop.purse("cash", on("2024-12-31")) == usd("350"));
  CHECK(shop.purse("cash", on("2025-01-01")) == usd("343"));
}

TEST_CASE(
    "what becomes of a car under a day of a closed period counts from the first open one, and its purchase "
    "by then",
    "[book][days]") {
  Shop shop;
  shop.post(R"({ do = "buy", date = 2025-03-01, vehicle = "pip", price = 100.00, purse = "cash" },
               { do = "close", date = 2025-02-28 },
               { do = "advertised", date = 2025-02-20, vehicle = "pip", price = 900.00 },
               { do = "part out", date = 2025-02-20, vehicle = "pip", still_brings = 50.00 })");
  CHECK(load_entry(shop.book(), 4).day == on("2025-03-01"));
}

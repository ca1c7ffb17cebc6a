// A paper that gives back as well as sells.
#include "book/questions/journal.h"
#include "book/questions/vehicle_money.h"
#include "book/walk.h"

using namespace nonrunner;
using namespace nonrunner::book;

namespace {
// Two lamps at 20.00 and 2.00 of tax for pip, gloves for the shelf; 60.00 of cash paid.
void buy_lamps(Shop& shop) {
  shop.post(
      R"({ do = "receipt", date = 2025-03-01, supplier = "Harrow", paid = "cash", tax = 4.00, total = 60.00, line = [
             { id = "lamp", what = "lamp", qty = 2, unit = 20.00, kind = "part", to = "pip", taxed = true },
             { id = "gloves", what = "gloves", unit = 16.00, kind = "stock", stock = "gloves", gives = 100 }] })");
}
std::string paper(const std::string& total, const std::string& lines, const std::string& head = "") {
  return "{ do = \"receipt\", date = 2025-03-05, supplier = \"Harrow\", number = \"9\", " + head +
         " total = " + total + ", line = [" + lines + "] }";
}
}  // namespace

TEST_CASE("a paper that takes one thing back and sells another is paid by the balance", "[book]") {
  Shop shop;
  buy_lamps(shop);
  // One lamp back with its tax, a mirror of 30.00 with 3.00 of tax: 1.00 of tax, 11.00 to pay.
  shop.post(paper("11.00",
                  R"({ return_of = "lamp", what = "lamp", amount = -20.00, taxed = true },
                     { id = "mirror", what = "mirror", amount = 30.00, kind = "part", to = "pip", taxed = true })",
                  "paid = { cash = 11.00 }, tax = 1.00,"));
  CHECK(shop.purse("cash") == usd("-71"));
  CHECK(shop.show("pip").cost == usd("55"));  // 44 - 22 + 33
  const auto lines = money_of(shop.book(), "pip");
  REQUIRE(lines.size() == 3);
  CHECK(lines[1].what == "lamp went back");  // as the paper lists them
  CHECK(lines[1].amount == usd("22"));
  CHECK(find_line(shop.book(), "lamp")->left() == Quantity::parse("1"));
  CHECK(shop.refusal(R"({ do = "void", date = 2025-03-06, entry = 1, why = "typed twice" })") ==
        "void: entry 2 (something that went back or to the shelf) rests on entry 1; void that first: "
        "nonrunner void 2 --why \"...\"");
}

TEST_CASE("an exchange with no money, and a paper that gives money back", "[book]") {
  Shop shop;
  buy_lamps(shop);
  shop.post(paper("0", R"({ return_of = "lamp", what = "lamp", amount = -20.00 },
                          { what = "lamp, left", amount = 20.00, kind = "part", to = "teal" })"));
  CHECK(shop.purse("cash") == usd("-60"));
  CHECK(shop.show("pip").cost == usd("24"));
  CHECK(shop.show("teal").cost == usd("20"));
  Shop again;  // as an export says it, which names no purse
  again.post(load_entry(shop.book(), 1).event + ", " + load_entry(shop.book(), 2).event);
  CHECK(load_entry(again.book(), 2).event == load_entry(shop.book(), 2).event);
  shop.post(paper("-24.00", R"({ return_of = "lamp", what = "lamp", amount = -18.00, taxed = true },
                               { return_of = "gloves", what = "gloves", qty = 0.5, amount = -4.00 })",
                  "again = true, tax = -2.00, paid = { bank = -24.00 },"));
  CHECK(shop.purse("bank") == usd("24"));
  CHECK(journal(shop.book(), "").back().amount == usd("-24"));  // it came back
  CHECK(shop.show("pip").cost == usd("4"));  // 2.00 of the price and the tax of the first were not given back
  CHECK(shop.shelf("gloves").quantity == Quantity::parse("50"));
  CHECK(shop.balance("overhead") == usd("4"));  // half of 16.00 less the 4.00 that they gave for it
}

TEST_CASE("a line given back on a paper is refused as a return is, and twice on one paper", "[book]") {
  Shop shop;
  buy_lamps(shop);
  shop.wary = true;
  const auto back = [](const std::string& rest) {
    return paper("-1.00", "{ what = \"lamp\", " + rest + " }", "paid = \"cash\",");
  };
  walk(shop,
       {
           {back(R"(return_of = "lamp", amount = -1.00, to = "pip")"),
            "line 1 of the receipt gives back an earlier line, expected beside \"return_of\" only what, qty, "
            "unit or amount, taxed, and from; found \"to\""},
           {back(R"(return_of = "lamp", core_of = "lamp", amount = -1.00)"),
            "line 1 of the receipt has both \"core_of\" and \"return_of\", expected one of them"},
           {back(R"(return_of = "lam", amount = -1.00)"),
            "receipt: no receipt line has the id \"lam\", did you mean \"lamp\"?"},
           {back(R"(return_of = "lamp", qty = 3, amount = -1.00)"),
            "receipt: 3 of line lamp (\"lamp\"), expected more than 0 and at most 2, as 0 of 2 went back "
            "already"},
           {paper("-41.00", R"({ return_of = "lamp", what = "lamp", amount = -41.00 })", "paid = \"cash\","),
            "receipt: 41.00 for the goods of line lamp (\"lamp\"), expected 0 to 20.00"},
           {paper("1.00", R"({ return_of = "lamp", what = "lamp", amount = 1.00 })", "paid = \"cash\","),
            "receipt: -1.00 for the goods of line lamp (\"lamp\"), expected 0 to 20.00"},
           {back(R"(return_of = "lamp", amount = -1.00)"), "accepted"},
       });
  CHECK(shop.refusal(paper("-40.00", R"({ return_of = "lamp", what = "lamp", qty = 2, amount = -20.00 },
                                        { return_of = "lamp", what = "lamp", qty = 2, amount = -20.00 })",
                           "paid = \"cash\",")) ==
        "receipt: line \"lamp\" gives back lamp, which another line of this paper does; make "
        "them one line");
}

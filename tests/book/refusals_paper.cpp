// The refusals of papers and of what follows them: receipts, returns, cores, the shelf.
#include "book/events/receipt.h"
#include "book/walk.h"

using namespace nonrunner;
using namespace nonrunner::book;

TEST_CASE("a receipt refuses, in the order of its header", "[book]") {
  Shop shop;
  shop.post(R"({ do = "owner in", date = 2025-03-01, purse = "cash", amount = 500.00 },
               { do = "receipt", date = 2025-03-02, supplier = "Cleave Yard", number = "7", paid = "cash", total = 10.00,
                 line = [{ id = "fan", what = "fan", amount = 10.00, kind = "part", to = "pip" }] })");
  const auto paper = [](const std::string& line, const std::string& head) {
    return "{ do = \"receipt\", date = 2025-03-03, supplier = \"Cleave Yard\", " + head + ", line = [" +
           line + "] }";
  };
  const std::string wrong =
      R"(number = "7", replaces = 1, total = 99.00, paid = { cash = 98.00 }, tax = 1.00, shipping = -1, discount = -1)";
  const std::string fan = R"({ id = "fan", what = "fan", kind = )";
  const std::string at = "receipt: line \"fan\"";
  const std::string right = fan + R"("part", to = "pip", unit = 8.00, core = 2.00 })";
  const std::string taxed = fan + R"("part", to = "pip", unit = 8.00, core = 2.00, taxed = true })";
  walk(
      shop,
      {
          {paper("", wrong),
           "receipt: there is no line, expected at least one; what is not itemised yet is a quick line"},
          {paper(fan + R"("part" })", wrong), at + " has neither unit nor amount, expected one of them"},
          {paper(fan + R"("part", unit = 8.00, amount = 8.00 })", wrong),
           at + " has both unit and amount, expected one of them"},
          {paper(fan + R"("part", unit = 8.00, qty = 0 })", wrong),
           at + " has the quantity 0, expected more than 0 (what goes back has a negative unit or amount)"},
          {paper(fan + R"("part", unit = 8.00 })", wrong),
           at + " says no car, expected to = \"TAG\" or share = { TAG = weight }"},
          {paper(fan + R"("stock", to = "pip", unit = 8.00 })", wrong),
           at + " is of the kind stock and says no shelf, expected stock = \"ITEM\""},
          {paper(fan + R"("part", to = "pip", stock = "fans", unit = 8.00 })", wrong),
           at + " is of the kind part and names the shelf \"fans\", expected kind = \"stock\""},
          {paper(fan + R"("overhead", to = "pip", unit = 8.00 })", wrong),
           at + " is of the kind overhead and cannot be for a car; a cost of pip is a part, consumable, "
                "sublet or fee"},
          {paper(fan + R"("stock", stock = "fans", gives = 0, unit = 8.00 })", wrong),
           at + " gives nothing, expected gives above 0"},
          {paper(fan + R"("part", to = "pip", unit = 8.00, core = -2.00 })", wrong),
           at +
               " has a core deposit of -2.00, expected 0 or more; a core handed over is a line with core_of"},
          {paper(right, wrong), "receipt: shipping is -1.00, expected 0 or more"},
          {paper(
               right,
               R"(number = "7", replaces = 1, total = 99.00, paid = { cash = 98.00 }, tax = 1.00, shipping = 1, discount = -1)"),
           "receipt: discount is -1.00, expected 0 or more"},
          {paper(
               right,
               R"(number = "7", replaces = 1, total = 99.00, paid = { cash = 98.00 }, tax = 1.00, shipping = 1, discount = 1)"),
           "receipt: there is a tax but no line is taxed; mark the lines that it lies on with taxed = true"},
          {paper(taxed + R"(, { what = "coupon", amount = -8.00, kind = "part", to = "pip", taxed = true })",
                 R"(number = "7", replaces = 1, total = 99.00, paid = { cash = 98.00 }, tax = 1.00)"),
           "receipt: there is a tax and the taxed lines add up to 0; make what was bought and what went back "
           "two papers"},
          {paper(
               taxed,
               R"(number = "7", replaces = 1, total = 99.00, paid = { cash = 98.00 }, tax = 1.00, shipping = 3, discount = 1)"),
           "receipt: lines + tax + shipping - discount = 13.00, printed total 99.00: 86.00 apart; nothing "
           "recorded"},
          {paper(
               taxed,
               R"(number = "7", replaces = 1, total = 13.00, paid = { cash = 12.00, bank = 0.50 }, tax = 1.00, shipping = 3, discount = 1)"),
           "receipt: the purses paid 12.50, printed total 13.00: 0.50 apart; what stays unpaid needs "
           "on_account = true"},
          {paper(
               taxed,
               R"(number = "7", replaces = 1, total = 13.00, paid = { cash = 12.50, bank = 0.50 }, tax = 1.00, shipping = 3, discount = 1)"),
           "receipt: entry 1 is \"owner in\", expected a receipt that this paper replaces; see: nonrunner "
           "tray"},
          {paper(taxed, R"(number = "7", replaces = 9, total = 11.00, paid = "cash", tax = 1.00)"),
           "receipt: entry 9: there is no such entry; see: nonrunner entries"},
          {paper(taxed, R"(number = "7", total = 11.00, paid = "cash", tax = 1.00)"),
           "receipt: Cleave Yard 7 is in the book already (entry 2); if it is another one, say so with "
           "--again"},
          {paper(taxed, R"(number = "8", total = 11.00, paid = "cash", tax = 1.00)"),
           at + " has the id \"fan\", which entry 2 uses already; choose another id"},
          {paper(
               R"({ id = "f2", what = "fan", kind = "part", to = "pip", unit = 8.00 }, { id = "f2", what = "fan", kind = "part", to = "pip", unit = 8.00 })",
               R"(number = "8", total = 16.00, paid = "cash")"),
           at + " has the id \"f2\", which stands twice on this paper"},
          {paper(R"({ what = "old fan", amount = -8.00, core_of = "fun" })",
                 R"(number = "8", total = -8.00, paid = "cash")"),
           "receipt: no receipt line has the id \"fun\", did you mean \"fan\"?"},
          {paper(R"({ what = "old fan", amount = -8.00, core_of = "fan" })",
                 R"(number = "8", total = -8.00, paid = "cash")"),
           "receipt: line fan (\"fan\") carries no core deposit"},
          {paper(R"({ what = "fan", kind = "part", to = "pi_p", unit = 8.00 })",
                 R"(number = "8", total = 8.00, paid = "cash")"),
           "receipt: found the tag \"pi_p\", expected 1 to 24 of a-z, 0-9 and '-'"},
          {paper(R"({ id = "f2", what = "fan", kind = "part", to = "pip", unit = 8.00 })",
                 R"(number = "8", total = 8.00, paid = "cash")"),
           "accepted"},
          {paper(R"({ what = "fan", kind = "part", to = "pip", unit = 8.00 })",
                 R"(replaces = 2, number = "7", total = 8.00, paid = "cash")"),
           "accepted"},
          {paper(R"({ what = "fan", kind = "part", to = "pip", unit = 8.00 })",
                 R"(number = "7", again = true, total = 8.00, paid = "cash")"),
           "accepted"},
      });
}

TEST_CASE("a paper without a number is known again by supplier, day and total", "[book]") {
  Shop shop;
  const auto paper = [](const std::string& head, const std::string& total) {
    return "{ do = \"receipt\", date = 2025-03-" + head + ", total = " + total +
           ", paid = \"cash\", line = [{ what = \"bulbs\", amount = " + total +
           ", kind = \"part\", to = \"pip\" }] }";
  };
  shop.post(paper("03, supplier = \"Harrow\"", "9.50"));
  walk(shop,
       {
           {paper("03, supplier = \"Harrow\"", "9.50"),
            "receipt: Harrow of 2025-03-03 over 9.50 is in the book already (entry 1); if it is another one, "
            "say so with --again"},
           {paper("03, supplier = \"Harrow\", number = \"11\"", "9.50"),
            "receipt: Harrow 11 is in the book already (entry 1); if it is another one, say so with --again"},
           {paper("04, supplier = \"Harrow\"", "9.50"), "accepted"},
           {paper("03, supplier = \"Harrow\"", "9.51"), "accepted"},
           {paper("03, supplier = \"Cleave\"", "9.50"), "accepted"},
       });
  // Two numbers are two papers, whatever else is equal.
  shop.post(paper("05, supplier = \"Harrow\", number = \"12\"", "9.50"));
  CHECK(shop.refusal(paper("05, supplier = \"Harrow\", number = \"13\"", "9.50")) == "accepted");
}

TEST_CASE("a whole paper and one on account need their supplier; a quick line does not", "[book]") {
  Shop shop;
  const auto quick = [&](bool itemised, bool on_paper, bool on_account) {
    return shop.refusal_of([&](Recording& recording) {
      Receipt receipt;
      receipt.day = shop.today;
      receipt.total = usd("5");
      receipt.itemised = itemised;
      receipt.on_paper = on_paper;
      receipt.on_account = on_account;
      if (!on_account) receipt.paid = {{"cash", usd("5")}};
      ReceiptLine line;
      line.what = "hose";
      line.kind = "part";
      line.amount = usd("5");
      line.shares = {{"pip", 1000}};
      receipt.lines = {line};
      record(recording, receipt);
    });
  };
  CHECK(quick(true, true, false) ==
        "receipt: a whole paper needs its supplier; say who, or that there was no paper: --supplier NAME, "
        "or --no-paper");
  CHECK(quick(false, true, true) ==
        "receipt: what stays on account needs the supplier whom it is owed; say who");
  CHECK(quick(true, false, true) ==
        "receipt: what stays on account needs the supplier whom it is owed; say who");
  CHECK(quick(true, false, false) == "accepted");
  CHECK(quick(false, true, false) == "accepted");
}

TEST_CASE("a return refuses, in the order of its header", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", tax = 3.00, total = 45.00, line = [
                   { id = "pads", what = "pads", qty = 3, unit = 10.00, kind = "part", to = "pip", taxed = true },
                   { id = "oil", what = "oil", qty = 2, unit = 6.00, kind = "stock", stock = "oil", gives = 5 }] },
               { do = "draw", date = 2025-03-03, vehicle = "pip", stock = "oil", qty = 7 })");
  const auto back = [](const std::string& rest) {
    return "{ do = \"return\", date = 2025-03-04, purse = \"cash\", " + rest + " }";
  };
  walk(
      shop,
      {
          {back(R"(line = "pad", qty = 4, goods = 31, tax = 4, restocking = 40)"),
           "return: no receipt line has the id \"pad\", did you mean \"pads\"?"},
          {back(R"(line = "sprocket", qty = 4, goods = 31, tax = 4, restocking = 40)"),
           "return: no receipt line has the id \"sprocket\"; see: nonrunner entries TAG --lines"},
          {back(R"(line = "pads", qty = 4, goods = 31, tax = 4, restocking = 40)"),
           "return: 4 of line pads (\"pads\"), expected more than 0 and at most 3, as 0 of 3 went back "
           "already"},
          {back(R"(line = "pads", qty = 0, goods = 31, tax = 4, restocking = 40)"),
           "return: 0 of line pads (\"pads\"), expected more than 0 and at most 3, as 0 of 3 went back "
           "already"},
          {back(R"(line = "pads", qty = 3, goods = 31, tax = 4, restocking = 40)"),
           "return: 31.00 for the goods of line pads (\"pads\"), expected 0 to 30.00"},
          {back(R"(line = "pads", qty = 3, goods = -1, tax = 4, restocking = 40)"),
           "return: -1.00 for the goods of line pads (\"pads\"), expected 0 to 30.00"},
          {back(R"(line = "pads", qty = 3, goods = 30, tax = 4, restocking = 40)"),
           "return: 4.00 of tax for line pads (\"pads\"), expected 0 to 3.00"},
          {back(R"(line = "pads", qty = 3, goods = 30, tax = 3, restocking = 40)"),
           "return: a restocking fee of 40.00 for line pads (\"pads\"), expected 0 to 33.00, what comes "
           "back"},
          {back(R"(line = "pads", qty = 3, goods = 30, tax = 3, restocking = 33, on_account = -1)"),
           "return: -1.00 off what is owed to \"Harrow\", expected 0 to 0.00, as 0.00 comes back and 0.00 "
           "is owed"},
          {back(R"(line = "pads", qty = 3, goods = 30, tax = 3, restocking = 33)"), "accepted"},
          {back(R"(line = "oil", qty = 1, goods = 6, on_account = 0.01)"),
           "return: 0.01 off what is owed to \"Harrow\", expected 0 to 0.00, as 6.00 comes back and 0.00 is "
           "owed"},
          {back(R"(line = "oil", qty = 1, goods = 6)"),
           "return: 5 of \"oil\", but 3 on the shelf; where the shelf holds more: nonrunner count \"oil\" N"},
          {back(R"(line = "oil", qty = 0.6, goods = 3.60)"), "accepted"},
      });
  // What went back counts.
  shop.post(back(R"(line = "pads", qty = 2, goods = 20, tax = 2)"));
  walk(shop, {
                 {back(R"(line = "pads", qty = 2, goods = 10)"),
                  "return: 2 of line pads (\"pads\"), expected more than 0 and at most 1, as 2 of 3 went "
                  "back already"},
                 {back(R"(line = "pads", qty = 1, goods = 11, tax = 1)"),
                  "return: 11.00 for the goods of line pads (\"pads\"), expected 0 to 10.00"},
                 {back(R"(line = "pads", qty = 1, goods = 10, tax = 1.01)"),
                  "return: 1.01 of tax for line pads (\"pads\"), expected 0 to 1.00"},
                 {back(R"(line = "pads", qty = 1, goods = 10, tax = 1)"), "accepted"},
             });
  shop.post(back(R"(line = "pads", qty = 1, goods = 10, tax = 1)"));
  CHECK(shop.refusal(back(R"(line = "pads", qty = 1, goods = 10)")) ==
        "return: all of line pads (\"pads\") went back already");
}

TEST_CASE("a core going back refuses, in the order of its header", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", total = 76.00, line = [
                   { id = "rack", what = "rack", qty = 2, unit = 20.00, core = 15.00, kind = "part", to = "pip" },
                   { id = "boot", what = "boot", unit = 6.00, kind = "part", to = "pip" }] })");
  const auto back = [](const std::string& rest) {
    return "{ do = \"core back\", date = 2025-03-04, " + rest + " }";
  };
  walk(shop, {
                 {back(R"(line = "rak", qty = 3, amount = 31)"),
                  "core back: no receipt line has the id \"rak\", did you mean \"rack\"?"},
                 {back(R"(line = "boot", qty = 3, amount = 31)"),
                  "core back: line boot (\"boot\") carries no core deposit"},
                 {back(R"(line = "rack", qty = 3, amount = 31)"),
                  "core back: 3 of line rack (\"rack\"), expected more than 0 and at most 2, as 0 of 2 went "
                  "back already"},
                 {back(R"(line = "rack", qty = 0, amount = 31)"),
                  "core back: 0 of line rack (\"rack\"), expected more than 0 and at most 2, as 0 of 2 went "
                  "back already"},
                 {back(R"(line = "rack", qty = 2, amount = 31)"),
                  "core back: 31.00 for the core of line rack (\"rack\"), expected 0 to 30.00, the deposit "
                  "that was paid"},
                 {back(R"(line = "rack", qty = 1, amount = 16)"),
                  "core back: 16.00 for the core of line rack (\"rack\"), expected 0 to 15.00, the deposit "
                  "that was paid"},
                 {back(R"(line = "rack", qty = 1, amount = -1)"),
                  "core back: -1.00 for the core of line rack (\"rack\"), expected 0 to 15.00, the deposit "
                  "that was paid"},
                 {back(R"(line = "rack", qty = 1, amount = 15, on_account = 0.01)"),
                  "core back: 0.01 off what is owed to \"Harrow\", expected 0 to 0.00, as 15.00 comes back "
                  "and 0.00 is owed"},
                 {back(R"(line = "rack", qty = 1, amount = 15)"), "accepted"},
                 {back(R"(line = "rack", qty = 1, amount = 15, purse = "cash")"), "accepted"},
                 {back(R"(line = "rack", qty = 1, amount = 0)"), "accepted"},
             });
  shop.post(back(R"(line = "rack", qty = 2, amount = 30, purse = "cash")"));
  CHECK(shop.refusal(back(R"(line = "rack", qty = 1, amount = 15, purse = "cash")")) ==
        "core back: the core of line rack (\"rack\") went back already");
}

TEST_CASE("draw and count refuse an unknown item, naming the nearest, and numbers that cannot be", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", total = 10.00, line = [
                   { what = "gloves", unit = 10.00, kind = "stock", stock = "gloves", gives = 100 }] })");
  const auto draw = [](const std::string& item, const std::string& pieces) {
    return "{ do = \"draw\", date = 2025-03-04, vehicle = \"pi_p\", stock = \"" + item +
           "\", qty = " + pieces + " }";
  };
  walk(
      shop,
      {
          {draw("glove", "101"), "draw: there is no \"glove\" on the shelf, did you mean \"gloves\"?"},
          {draw("brake cleaner", "101"),
           "draw: there is no \"brake cleaner\" on the shelf; see: nonrunner stock"},
          {draw("gloves", "0"), "draw: the quantity of \"gloves\" is 0, expected more than 0"},
          {draw("gloves", "100.001"),
           "draw: 100.001 of \"gloves\", but 100 on the shelf; where the shelf holds more: nonrunner "
           "count \"gloves\" N"},
          {draw("gloves", "100"), "draw: found the tag \"pi_p\", expected 1 to 24 of a-z, 0-9 and '-'"},
          {R"({ do = "draw", date = 2025-03-04, vehicle = "pip", stock = "gloves", qty = 100 })", "accepted"},
      });
  const auto count = [](const std::string& item, const std::string& found) {
    return "{ do = \"count\", date = 2025-03-04, stock = \"" + item + "\", qty = " + found + " }";
  };
  walk(shop,
       {
           {count("glove", "-1"), "count: there is no \"glove\" on the shelf, did you mean \"gloves\"?"},
           {count("gloves", "-1"), "count: found -1 of \"gloves\", expected 0 or more"},
           {count("gloves", "0"), "accepted"},
       });
}

TEST_CASE("shelve refuses, in the order of its header", "[book]") {
  Shop shop;
  shop.post(
      R"({ do = "receipt", date = 2025-03-02, supplier = "Harrow", paid = "cash", total = 19.00, line = [
                   { id = "caps", what = "hub caps", qty = 4, unit = 4.00, kind = "part", to = "pip" },
                   { id = "rag", what = "rags", amount = 3.00, kind = "overhead" }] })");
  const auto shelve = [](const std::string& rest) {
    return "{ do = \"shelve\", date = 2025-03-04, stock = \"hub cap\", " + rest + " }";
  };
  walk(shop, {
                 {shelve("qty = 0"), "shelve: the quantity is 0, expected more than 0"},
                 {shelve("qty = 5"),
                  "shelve: found neither a line nor a vehicle with an amount, expected one of them"},
                 {shelve("qty = 5, vehicle = \"pip\""),
                  "shelve: found neither a line nor a vehicle with an amount, expected one of them"},
                 {shelve("qty = 5, line = \"cap\", amount = -1"),
                  "shelve: no receipt line has the id \"cap\", did you mean \"caps\"?"},
                 {shelve("qty = 5, line = \"rag\", amount = -1"),
                  "shelve: line rag (\"rags\") is not on a car, expected a line that is"},
                 {shelve("qty = 5, line = \"caps\", amount = -1"),
                  "shelve: 5 of line caps (\"hub caps\"), expected at most 4"},
                 {shelve("qty = 4, line = \"caps\", amount = -1"),
                  "shelve: the amount is -1.00, expected 0 or more"},
                 {shelve("qty = 4, line = \"caps\", amount = 17"),
                  "shelve: 17.00 off pip, which carries a cost of 16.00; expected at most that"},
                 {shelve("qty = 4, line = \"caps\", amount = 16"), "accepted"},
                 {shelve("qty = 4, line = \"caps\""), "accepted"},
                 {shelve("qty = 1, vehicle = \"pop\", amount = -1"),
                  "shelve: no vehicle has the tag \"pop\", did you mean \"pip\"?"},
                 {shelve("qty = 1, vehicle = \"pip\", amount = -1"),
                  "shelve: the amount is -1.00, expected 0 or more"},
                 {shelve("qty = 1, vehicle = \"pip\", amount = 17"),
                  "shelve: 17.00 off pip, which carries a cost of 16.00; expected at most that"},
                 {shelve("qty = 1, vehicle = \"pip\", amount = 16"), "accepted"},
             });
  // What lies on the shelf neither goes there again nor back to the shop.
  shop.post(shelve("qty = 3, line = \"caps\""));
  CHECK(shop.refusal(shelve("qty = 2, line = \"caps\"")) ==
        "shelve: 2 of line caps (\"hub caps\"), expected at most 1");
  CHECK(
      shop.refusal(
          R"({ do = "return", date = 2025-03-05, line = "caps", qty = 2, goods = 8.00, purse = "cash" })") ==
      "return: 2 of line caps (\"hub caps\"), expected more than 0 and at most 1, as 0 of 4 went back "
      "already and 3 to the shelf");
  CHECK(shop.refusal(R"({ do = "void", date = 2025-03-05, entry = 1, why = "typed twice" })") ==
        "void: entry 2 (something that went back or to the shelf) rests on entry 1; void that first: "
        "nonrunner void 2 --why \"...\"");
}

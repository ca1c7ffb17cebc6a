// What is paid, used or sold since stands in nobody's way: an entry is put right or undone as long as what follows
// from it is still carried by what takes its place.
#include "book/care/export.h"
#include "book/care/restore.h"
#include "commands/session.h"

using namespace nonrunner::commands;

namespace {

// Bought for 700 on the first of February 2026; entry 1 is the owner's money, 2 the purchase.
void bought(Session& session) {
  session.type("start SHOP/shop.book");
  session.type("owner in 2000 --purse cash --date 2026-01-02");
  session.type("buy teal 700 --purse cash --date 2026-02-01");
}
std::string healthy(Session& session) { return session.type("check").err; }

}  // namespace

TEST_CASE("the price of a car that was sold is put right without taking back the sale", "[commands]") {
  Session session;
  bought(session);
  session.type("sell teal 1500 --purse cash --date 2026-03-01");
  CHECK(session.type("correct 2 --amount 730").out ==
        "entry 5: entry 2 put right, from cash: buy of 2026-02-01: teal, cash\n");
  CHECK(session.type("purses").out == "cash  2,770.00\n");
  CHECK(session.type("undo").status == 0);
  CHECK(session.type("purses").out == "cash  2,800.00\n");
  CHECK(healthy(session).empty());
}

TEST_CASE("the price of a car whose sale fell through is put right, and another day as far as the sale goes",
          "[commands]") {
  Session session;
  bought(session);
  session.type("sell teal 1500 --purse cash --date 2026-02-10");
  session.type("void 3 --later 2026-02-15 --why \"fell through\"");
  CHECK(session.type("correct 2 --amount 730").out ==
        "entry 6: entry 2 put right, from cash: buy of 2026-02-01: teal, cash\n");
  CHECK(session.type("correct 6 --date 2026-02-11").err ==
        "nonrunner: correct: teal was sold on 2026-02-10 (entry 3), and that stood until 2026-02-15; "
        "expected that it was "
        "bought by 2026-02-10\n");
  CHECK(session.type("correct 6 --date 2026-02-03").status == 0);
  CHECK(session.type("void 8 --why x --never-was").err ==
        "nonrunner: void: entry 3 (what became of the car) rested on entry 8 until 2026-02-15; that counts "
        "until then at "
        "least: nonrunner void 8 --later 2026-02-15 --why \"...\"\n");
  CHECK(session.type("void 8 --later 2026-02-15 --why \"the seller took it back\"").status == 0);
  CHECK(healthy(session).empty());
}

TEST_CASE("a purchase does not go to another car, nor behind the sale that rests on it", "[commands]") {
  Session session;
  bought(session);
  session.type("sell teal 1500 --purse cash --date 2026-02-10");
  const std::string sold =
      "nonrunner: correct: teal was sold on 2026-02-10 (entry 3), expected that it was bought by then; else "
      "void that "
      "first: nonrunner void 3 --why \"...\"\n";
  CHECK(session.type("correct 2 --date 2026-02-11").err == sold);
  CHECK(session.type("correct 2 --to wigeon --new").err == sold);
  CHECK(session.type("void 2 --why x --never-was").err ==
        "nonrunner: void: entry 3 (what became of the car) rests on entry 2; void that first: nonrunner void "
        "3 --why "
        "\"...\"\n");
  CHECK(session.type("purses").out == "cash  2,800.00\n");
}

TEST_CASE("a purchase of a closed year is put right though the car was sold in it", "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("owner in 2000 --purse cash --date 2025-01-02");
  session.type("buy teal 700 --purse cash --date 2025-02-01");
  session.type("sell teal 1500 --purse cash --cost advert=20 --date 2025-03-01");
  session.type("close 2025-12-31");
  CHECK(session.type("correct 2 --amount 730").status == 0);
  CHECK(session.type("correct 3 --amount 1510").status == 0);
  CHECK(session.type("purses").out == "cash  2,760.00\n");  // the advert is paid once
  CHECK(healthy(session).empty());
}

TEST_CASE("what was paid is put right as long as no more is paid than is owed then", "[commands]") {
  Session session;
  bought(session);
  session.type("receipt teal 48 tyre --supplier Kettle --on-account --date 2026-02-02");
  session.type("pay 48 Kettle --purse cash --date 2026-02-05");
  CHECK(session.type("correct 3 --what \"front tyre\"").out ==
        "entry 6: entry 3 put right: receipt of 2026-02-02: Kettle, front tyre\n");
  CHECK(session.type("correct 6 --amount 50").status == 0);
  CHECK(session.type("correct 8 --amount 30").err ==
        "nonrunner: correct: on 2026-02-05 what is owed to \"Kettle\" would be -18.00 (entry 4, pay), "
        "expected 0 or more; "
        "nothing was recorded\n");
  CHECK(session.type("void 8 --why x --never-was").err ==
        "nonrunner: void: what entry 8 brought to what is owed to \"Kettle\" is used already, by entry 4 "
        "(pay); void that "
        "first: nonrunner void 4 --why \"...\"\n");
  CHECK(session.type("undo").status == 0);
  CHECK(healthy(session).empty());
}

TEST_CASE("a sale whose tax is paid is put right where the tax stays", "[commands]") {
  Session session;
  bought(session);
  session.type("sell teal 1500 --tax 90 --purse cash --date 2026-03-01");
  session.type("pay 90 --sales-tax --purse cash --date 2026-03-05");
  CHECK(session.type("correct 3 --amount 1510").out ==
        "entry 6: entry 3 put right, into cash: sell of 2026-03-01: teal, cash\n");
  CHECK(session.type("purses").out == "cash  2,810.00\n");
  CHECK(healthy(session).empty());
}

TEST_CASE("a deposit of a buyer that was used at the sale is put right as far as it reaches", "[commands]") {
  Session session;
  bought(session);
  session.type("deposit teal 50 --purse cash --date 2026-02-05");
  session.type("sell teal 1500 --purse cash --date 2026-03-01");
  CHECK(session.type("correct 3 --date 2026-02-06").status == 0);
  CHECK(session.type("correct 6 --amount 40").err ==
        "nonrunner: correct: on 2026-03-01 the deposit held for teal would be -10.00 (entry 4, sell), "
        "expected 0 or more; "
        "nothing was recorded\n");
  CHECK(healthy(session).empty());
}

TEST_CASE("a deposit that was taken and used on the day of the sale is put right", "[commands]") {
  Session session;
  bought(session);
  session.type("deposit teal 50 --purse cash --date 2026-03-01");
  session.type("sell teal 1500 --purse cash --date 2026-03-01");
  CHECK(session.type("correct 3 --amount 60").status == 0);
  CHECK(healthy(session).empty());
}

TEST_CASE("a paper that took the place of a paid line is undone, and the line has its place again",
          "[commands]") {
  Session session;
  bought(session);
  session.type("receipt teal 48 tyre --supplier Kettle --on-account --date 2026-02-02");
  session.type("pay 48 Kettle --purse cash --date 2026-02-05");
  session.file(
      "paper.toml",
      "date = 2026-02-02\nsupplier = \"Kettle\"\nnumber = \"9\"\non_account = true\ntotal = 48.00\n"
      "replaces = 3\nline = [{ what = \"tyre\", amount = 48.00, kind = \"part\", to = \"teal\" }]\n");
  CHECK(session.type("receipt --file SHOP/paper.toml").err == "");
  CHECK(session.type("undo").err == "");
  CHECK(healthy(session).empty());
}

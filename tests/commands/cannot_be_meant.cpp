// What is typed and cannot be meant is refused with what to do; a late paper of the same thing is taken.
#include "commands/session.h"

using namespace nonrunner::commands;

namespace {

void two_sold(Session& session) {
  session.type("start SHOP/shop.book");
  session.type("owner in 2000 --purse cash --date 2026-01-02");
  for (const char* tag : {"wigeon", "kestrel"}) {
    session.type(std::string("buy ") + tag + " 300 --purse cash --date 2026-02-01");
    session.type(std::string("sell ") + tag + " 700 --purse cash --date 2026-03-01");
  }
}

}  // namespace

TEST_CASE("a buyer's deposit on a car that was sold by that day is refused, one of before the sale is not",
          "[commands]") {
  Session session;
  two_sold(session);
  CHECK(session.type("deposit wigeon 50 --purse cash").err ==
        "nonrunner: deposit: wigeon was sold on 2026-03-01 (entry 3); to take that back: nonrunner "
        "void 3 --why "
        "\"...\"\n");
  CHECK(session.type("deposit wigeon 50 --purse cash --date 2026-03-01").err ==
        "nonrunner: deposit: wigeon was sold on 2026-03-01 (entry 3); to take that back: nonrunner "
        "void 3 --why "
        "\"...\"\n");
  CHECK(session.type("deposit wigeon 50 --purse cash --date 2026-02-20").status == 0);
}

TEST_CASE("nothing moves between two cars that were both sold before, while one of them was there it does",
          "[commands]") {
  Session session;
  two_sold(session);
  CHECK(session.type("transfer wigeon kestrel 20 seat").err ==
        "nonrunner: transfer: wigeon was sold on 2026-03-01 and kestrel on 2026-03-01, expected that one of "
        "them was there on "
        "2026-05-02; give the day on which it was moved\n");
  CHECK(session.type("transfer wigeon kestrel 20 seat --date 2026-02-20").status == 0);
}

TEST_CASE(
    "a car of which nothing says that it went to pieces is not written off, and an undone void of one is",
    "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("owner in 2000 --purse cash --date 2026-01-02");
  session.type("buy plover 300 --purse cash --date 2026-02-01");
  CHECK(session.type("write-off plover").err ==
        "nonrunner: write off: plover was bought on 2026-02-01 and nothing says that it went to pieces, "
        "expected a car in "
        "pieces; say first that it goes to pieces, and what its parts still bring (0, where that is "
        "nothing)\n");
  session.type("part-out plover 0 --date 2026-02-02");
  CHECK(session.type("write-off plover").status == 0);
}

TEST_CASE("a car that was left is not planned for, nor does a clock start on it", "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("pass nobody rust --date 2026-04-01");
  const std::string left =
      "nobody was looked at and left on 2026-04-01 (entry 1), expected a car that may be bought; enter the "
      "purchase first: "
      "nonrunner buy nobody PRICE\n";
  CHECK(session.type("plan nobody 5 paint").err == "nonrunner: plan: " + left);
  CHECK(session.type("clock on nobody wash").err == "nonrunner: clock on: " + left);
  CHECK(session.type("plan nobody 5 paint --date 2026-03-30").status == 0);
}

TEST_CASE("a last day before that of its entry is refused, one that has passed since is a late paper",
          "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("owner in 2000 --purse cash --date 2026-01-02");
  session.type("buy plover 300 --purse cash --date 2026-02-01");
  CHECK(session.type("receipt plover 45 starter --core 18 --core-by 2026-05-01 --purse cash").err ==
        "nonrunner: receipt: the last day for the core of \"starter\" is 2026-05-01, expected 2026-05-02, "
        "the day of the "
        "entry, or a later one\n");
  CHECK(
      session.type("receipt plover 45 starter --core 18 --core-by 2026-05-01 --purse cash --date 2026-04-01")
          .status == 0);
  CHECK(session.type("tool 60 puller --purse cash --back-by 2026-05-01").err ==
        "nonrunner: tool deposit: the last day for the deposit on \"puller\" is 2026-05-01, expected "
        "2026-05-02, the day of "
        "the entry, or a later one\n");
}

TEST_CASE("a purse or a supplier one letter off a known one is asked about, from three letters on",
          "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("owner in 2000 --purse tin");
  session.type("owner in 2000 --purse bank");
  const auto asked = [](const std::string& event, const std::string& what, const std::string& name,
                        const std::string& meant) {
    return "nonrunner: " + event + ": there is no " + what + " \"" + name + "\", did you mean \"" + meant +
           "\"? if it is a new one, say so with --new\n";
  };
  CHECK(session.type("owner in 5 --purse tinn").err == asked("owner in", "purse", "tinn", "tin"));
  CHECK(session.type("owner in 5 --purse tim").err == asked("owner in", "purse", "tim", "tin"));
  CHECK(session.type("owner in 5 --purse bnk").err == asked("owner in", "purse", "bnk", "bank"));
  CHECK(session.type("buy teal 300 --purse tin").status == 0);
  CHECK(session.type("receipt teal 5 tyre --supplier \"Kettle Tyres\" --purse tin").status == 0);
  CHECK(session.type("receipt teal 6 tube --supplier \"Kettl Tyres\" --purse tin").err ==
        asked("receipt", "supplier", "Kettl Tyres", "Kettle Tyres"));
  CHECK(session.type("receipt teal 6 tube --supplier \"Kettl Tyres\" --purse tin --new").status == 0);
}

TEST_CASE("money is not moved out of a purse that never was", "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("owner in 2000 --purse bank");
  CHECK(session.type("move bnk cash 30").err ==
        "nonrunner: move: there is no purse \"bnk\" that it could come out of, did you mean \"bank\"? if it "
        "is a new one, say "
        "so with --new\n");
  CHECK(session.type("move credit cash 30").err ==
        "nonrunner: move: there is no purse \"credit\" that it could come out of; if it is a new one, say so "
        "with --new\n");
  CHECK(session.type("move bank cash 30").status == 0);
}

TEST_CASE("numbers with a decimal comma are read wherever a number is typed, and in lists with semicolons",
          "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("owner in 2000 --purse cash");
  CHECK(session.type("set hour 18,50").out == "hour is 18.50\n");
  CHECK(session.type("set hour 1,850").err.find("write 1850 or 1.85") != std::string::npos);
  session.type("buy teal 300 --purse cash");
  CHECK(session.type("sell teal 1000 --commission 2,5% --purse cash").status == 0);
  CHECK(session.type("purses").out == "cash  2,675.00\n");
  session.file("seen.csv", "price;kind;odometer;year\n3.010,50;sold;81.000,0;2012\n2950;asking;92000;2011\n");
  CHECK(session.type("comparable add --csv SHOP/seen.csv --model heron").err.empty());
  session.file(
      "shop.csv",
      "date;supplier;number;purse;what;amount;kind;to\n2026-05-01;Harrow;7;cash;pump;1.010,40;part;gull\n");
  session.type("buy gull 300 --purse cash");
  CHECK(session.type("receipt --csv SHOP/shop.csv").err == "");
  CHECK(session.type("show gull").out.find("1,310.40") != std::string::npos);
}

// A quick line of which there is no paper.
#include "commands/session.h"

using namespace nonrunner::commands;

TEST_CASE("a quick line without a paper is whole as it stands and never waits in the tray", "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("owner in 500 --purse cash");
  session.type("buy gem 100");
  CHECK(session.type("receipt gem 40 \"seat, from a lay-by\" --no-paper").out ==
        "entry 3: 40.00 from cash for gem, seat, from a lay-by, without a paper: it is\n  listed at the "
        "year's end\n");
  CHECK(session.type("tray").out == "the tray is empty: every paper is in the book\n");
  session.type("sell gem 300");
  CHECK(session.type("show gem").out.find("open") == std::string::npos);
  CHECK(session.type("entries gem").out.find("seat, from a lay-by, no paper") != std::string::npos);
}

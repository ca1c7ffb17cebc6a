// What a clock and a core make of their options.
#include "commands/session.h"

using namespace nonrunner::commands;

TEST_CASE("a clock takes a day and hours only when it is stopped, and never in silence", "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  CHECK(session.type("clock on gem strip --date 2026-04-20").err ==
        "nonrunner: clock: found --date with on, expected it with off: the clock runs from now on; see: "
        "nonrunner clock --help\n");
  CHECK(session.type("clock on gem strip --hours 2").status == 2);
  CHECK(session.type("clock show --date 2026-04-20").status == 2);
  CHECK(session.type("clock show").out.find("no clock runs") == 0);
  CHECK(session.type("clock on gem strip --new").status == 0);
  CHECK(session.type("clock off --hours 2 --date 2026-04-20").status == 0);
  CHECK(session.type("entries gem").out.find("2026-04-20") != std::string::npos);
}

TEST_CASE("whoever names what he stops means the clock that runs", "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("clock on gem strip --new");
  session.now = "2026-05-02T11:00:00Z";
  const std::string other = ", but the clock runs on gem: strip; stop that one: nonrunner clock off\n";
  CHECK(session.type("clock off pip").err == "nonrunner: clock off: found pip" + other);
  CHECK(session.type("clock off gem paint").err == "nonrunner: clock off: found gem: paint" + other);
  CHECK(session.type("clock show").out.find("me: gem, strip, 1 hour") == 0);
  CHECK(session.type("clock off Gem Strip").out == "entry 1: 1 hour on gem: strip\n");
  CHECK(session.type("clock off gem").err ==
        "nonrunner: clock off: your clock does not run; start one: nonrunner clock on TAG \"OPERATION\"\n");
}

TEST_CASE("some of the cores go back for their deposit unless another amount is said", "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("owner in 500 --purse cash");
  session.file("paper.toml",
               "date = 2026-05-01\nsupplier = \"Harrow\"\npaid = \"cash\"\ntotal = 159.99\n"
               "line = [{ id = \"A1\", what = \"caliper\", qty = 3, unit = 38.33, core = 15.00, kind = "
               "\"part\", to = \"gem\" }]\n");
  REQUIRE(session.type("receipt --file SHOP/paper.toml --new").err.empty());
  CHECK(session.type("core A1 --qty 1").out == "entry 3: core of \"caliper\" back: 15.00 into cash\n");
  CHECK(session.type("core A1 --qty 1 --amount 12").out ==
        "entry 4: core of \"caliper\" back: 12.00 into cash; 3.00 short\n");
  CHECK(session.type("core A1 --qty 2").err.find("expected more than 0 and at most 1") != std::string::npos);
  CHECK(session.type("core A1").out == "entry 5: core of \"caliper\" back: 15.00 into cash\n");
}

// The deposit on a borrowed tool, as it is typed.
#include "commands/session.h"

using namespace nonrunner::commands;

TEST_CASE("a tool deposit that comes back short says how to close it, and is closed so", "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("owner in 500 --purse cash");
  session.type("tool 80 hoist");
  CHECK(session.type("tool 65 hoist --back").out ==
        "entry 3: deposit of 65.00 came back into cash for \"hoist\"; 15.00 still due;\n"
        "  where it never comes: nonrunner tool \"hoist\" 0 --back --kept\n");
  CHECK(session.type("tool 0 hoist --kept").status == 2);
  CHECK(session.type("tool 0 hoist --back --kept").out ==
        "entry 4: nothing came back for \"hoist\"; 15.00 never will and is overhead now\n");
  CHECK(session.type("due").out == "nothing is due back\n");
  CHECK(session.type("tool 0 hoist --back --kept").err ==
        "nonrunner: tool deposit back: 0.00 for \"hoist\", but 0.00 is out for it; it came back already\n");
}

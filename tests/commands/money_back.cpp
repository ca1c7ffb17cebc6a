// Where the money goes that comes back, as the desk says it.
#include "commands/session.h"

using namespace nonrunner::commands;

TEST_CASE("a return of a paper on account says that it lowers what is owed, and how far", "[commands]") {
  Session session;
  session.type("start SHOP/shop.book");
  session.type("owner in 100 --purse cash");
  session.type("receipt gem 60 valve --core 10 --id V1 --whole --supplier Harrow --on-account --new");
  CHECK(
      session.type("return V1 --purse \"on account\"").err ==
      "nonrunner: return: found the purse \"on account\", expected one that holds money, such as cash; what "
      "is owed to a supplier: --on-account\n");
  CHECK(session.type("core V1").out == "entry 3: core of \"valve\" back: 10.00 off what is owed to Harrow\n");
  session.type("pay 20 Harrow --purse cash");
  CHECK(session.type("return V1").out ==
        "entry 5: 1 of \"valve\" went back: 40.00 off what is owed to Harrow, 20.00 into\n  cash\n");
  CHECK(session.type("purses").out == "cash  100.00\n");
}

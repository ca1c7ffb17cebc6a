// What is still open on a car: what is due first, then papers that are waited for and a deposit that is held.
#include "answers/open_things.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

std::string told(const std::vector<figures::Open>& all) {
  std::string text;
  for (const figures::Open& each : all) {
    using Kind = figures::Open::Kind;
    text += each.kind == Kind::due ? "due" : each.kind == Kind::paper ? "paper" : "deposit";
    text += fmt::format("|{}|{}|{}|{}\n", each.what, each.from, shown(each.amount), each.entry);
  }
  return text;
}

}  // namespace

TEST_CASE("a core, a paper that is waited for and a buyer's deposit are open until they are settled",
          "[answers]") {
  Pip pip;
  CHECK(open_things(pip.show("pip")).empty());
  pip.post(
      "{ do = \"receipt\", date = 2025-06-05, supplier = \"Tessel\", number = \"7\", paid = \"cash\", total "
      "= 136.00, "
      "line = [{ id = \"set\", what = \"set\", unit = 118.00, core = 18.00, kind = \"part\", to = \"pip\" }] "
      "}");
  pip.bought("jack", "30.00");
  pip.post(
      "{ do = \"buyer deposit\", date = 2025-06-06, vehicle = \"pip\", amount = 200.00, purse = \"cash\" }");
  const std::string waiting = "paper|||0.00|4\ndeposit|||200.00|0\n";
  CHECK(told(waiting_things(pip.show("pip"))) == waiting);
  CHECK(told(open_things(pip.show("pip"))) == "due|set|Tessel|18.00|0\n" + waiting);
  pip.post("{ do = \"core back\", date = 2025-06-07, line = \"set\", amount = 18.00, purse = \"cash\" }");
  CHECK(told(open_things(pip.show("pip"))) == waiting);
}

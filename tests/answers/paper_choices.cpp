// What a paper that is entered is offered: shops, cars, open lines.
#include "answers/paper_choices.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

TEST_CASE("a paper is offered the cars that are owned or were, and the shop last bought from first",
          "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"buy\", date = 2025-06-03, vehicle = \"wren\", price = 100.00, purse = \"cash\" }, "
      "{ do = \"sell\", date = 2025-06-04, vehicle = \"wren\", price = 150.00, purse = \"cash\" }, "
      "{ do = \"pass\", date = 2025-06-04, vehicle = \"tern\" }");
  pip.bought("set", "10.00", "supplier = \"Tessel\", number = \"1\"", ", more = true");
  pip.bought("clip", "1.00", "supplier = \"Harrow\", number = \"1\"");
  pip.bought("clips", "2.00", "supplier = \"Tessel\", number = \"2\"");
  using Names = std::vector<std::string>;
  CHECK(suppliers_known(pip.book()) == Names{"Tessel", "Harrow"});
  CHECK(cars_owned(pip.book(), pip.today) == Names{"pip"});
}

TEST_CASE(
    "the open lines of owned cars are offered, and one that only a quick line closed waits for its paper",
    "[answers]") {
  Pip pip;
  pip.bought("set", "118.00");
  pip.bought("wing", "55.00", "supplier = \"Tessel\", number = \"1\"");
  std::string all;
  for (const OpenLine& each : open_lines(pip.book(), pip.today))
    all += fmt::format("{} {} {} {} {}{}\n", each.vehicle, each.number, each.name, each.kind,
                       each.source.empty() ? "-" : each.source, each.waits ? " waits" : "");
  CHECK(all ==
        "pip 1 fees fee -\n"
        "pip 2 opening up consumable -\n"
        "pip 3 set part new waits\n");
}

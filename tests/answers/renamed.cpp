// A name that is now another one, also over several steps.
#include "answers/renamed.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

TEST_CASE(
    "a name that was changed is followed to its last one, as of its day, and two exchanged come to an end",
    "[answers]") {
  Pip pip;
  const auto same = [&](const std::string& day, const std::string& from, const std::string& to) {
    pip.post("{ do = \"finding\", date = " + day +
             ", vehicle = \"pip\", text = \"called otherwise\", same = [\"" + from + "=" + to + "\"] }");
  };
  same("2025-06-05", "seals", "seal kit");
  same("2025-06-07", "seal kit", "set");
  const Renamed now(pip.book(), "pip", {});
  CHECK(now.now("seals") == "set");
  CHECK(now.now("seal kit") == "set");
  CHECK(now.now("rope") == "rope");
  CHECK(Renamed(pip.book(), "pip", Day(2025, 6, 6)).now("seals") == "seal kit");
  CHECK(Renamed(pip.book(), "pip", Day(2025, 6, 4)).now("seals") == "seals");
  same("2025-06-08", "left", "right");
  same("2025-06-08", "right", "left");
  const std::string end = Renamed(pip.book(), "pip", {}).now("left");
  CHECK((end == "left" || end == "right"));
}

TEST_CASE("only what is said to be the same has another name", "[answers]") {
  Pip pip;
  pip.post(
      "{ do = \"finding\", date = 2025-06-03, vehicle = \"pip\", text = \"seen\", seen = [\"gas=none\"] }");
  CHECK(Renamed(pip.book(), "pip", {}).now("gas") == "gas");
}

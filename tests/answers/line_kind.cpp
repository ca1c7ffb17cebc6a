// What a thing that is bought is to the shop, where nobody says it.
#include "answers/line_kind.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

TEST_CASE("what it goes to or the line that it stands under tells what a thing is; else it is a part",
          "[answers]") {
  const std::string job = appraisal::with(certain_job(), "takes_off = 50\n",
                                          "takes_off = 50\nconsumables = [{ name = \"sealant\", qty = 1, "
                                          "price = 9 }]\nsublet = [{ name = \"skim\", price "
                                          "= 60 }]\n");
  Pip pip(job);
  const auto kind = [&](const std::string& to, const std::string& what, const std::string& under = "") {
    return line_kind(pip.book(), to, what, under);
  };
  CHECK(kind("tools", "sealant") == "tool");
  CHECK(kind("owner", "lunch") == "private");
  CHECK(kind("overhead", "rent") == "overhead");
  CHECK(kind("pip", "sealant") == "consumable");
  CHECK(kind("pip", "skim") == "sublet");
  CHECK(kind("pip", "fees") == "fee");
  CHECK(kind("pip", "set") == "part");
  CHECK(kind("pip", "a tube", "sealant") == "consumable");
  CHECK(kind("pip", "a tube", "1") == "fee");
  CHECK(kind("pip", "a tube") == "part");
  CHECK(kind("nobody's", "sealant") == "part");
}

TEST_CASE("each kind of a line of an estimate is a kind of a receipt line", "[answers]") {
  using Kind = appraisal::EstimatedLine::Kind;
  CHECK(std::string(line_kind(Kind::opening_up)) == "consumable");
  CHECK(std::string(line_kind(Kind::planned)) == "part");
  CHECK(std::string(line_kind(Kind::fix)) == "part");
}

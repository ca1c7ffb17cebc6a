// Figures of a kept appraisal changed by hand: which can be, and where they go.
#include "answers/by_hand.h"

#include "answers/kept_job.h"
#include "answers/pip.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::answers;

TEST_CASE("the figures that can be changed are those of the file, in its order, each with its place",
          "[answers]") {
  const Pip pip;
  std::string all;
  for (const Changeable& each : changeable(const_cast<Pip&>(pip).book(), "pip"))
    all += each.place + " | " + each.about + " | " + each.what + " | " + each.value + "\n";
  CHECK(all ==
        "deal.asking | the price | price asked | 900\n"
        "deal.fees | the price | fees of the purchase | 100\n"
        "value.sound | what it sells for | a sound one | 3000\n"
        "shop.hour | the shop | an own hour has to earn | 20\n"
        "shop.holding_per_day | the shop | a day costs | 3\n"
        "cause.0.odds | odds before the tests | gasket | 3\n"
        "cause.1.odds | odds before the tests | pump | 1\n"
        "cause.0.found | what it sells for as found | gasket | 500\n"
        "cause.1.found | what it sells for as found | pump | 800\n"
        "correction.0.parts.0.new | reseal | set, new, each | 118\n");
}

TEST_CASE(
    "a change by hand stands beside what is settled, once for each place, and an unchanged one not at all",
    "[answers]") {
  Pip pip;
  const auto with = [&](const std::string& settled, const std::vector<ByHand>& changes) {
    return settled_with(pip.book(), "pip", settled, changes);
  };
  CHECK(with("", {{"deal.asking", "900"}}).empty());
  const std::string once =
      with("pace = [1, 1, 2]\n", {{"deal.asking", "850"}, {"value.sound", "2500, 2900,3400"}});
  CHECK(once ==
        "pace = [1, 1, 2]\n"
        "by_hand = [{ at = \"deal.asking\", is = [850] }, { at = \"value.sound\", is = [2500, 2900, 3400] "
        "}]\n");
  CHECK(with(once, {{"deal.asking", "820,50"}}) ==
        "pace = [1, 1, 2]\n"
        "by_hand = [{ at = \"deal.asking\", is = [820.50] }, { at = \"value.sound\", is = [2500, 2900, 3400] "
        "}]\n");
  CHECK(by_hand_of(once) ==
        "by_hand = [{ at = \"deal.asking\", is = [850] }, { at = \"value.sound\", is = [2500, 2900, 3400] "
        "}]\n");
  CHECK(by_hand_of("pace = [1, 1, 2]\n").empty());
}

TEST_CASE("what is no figure of the file, and what is no number, is refused", "[answers]") {
  Pip pip;
  const auto refused = [&](const std::string& place, const std::string& value) {
    return book::Shop::said([&] { settled_with(pip.book(), "pip", "", {{place, value}}); });
  };
  CHECK(refused("cause.2.odds", "3") ==
        "changed by hand: found a figure (cause.2.odds) that the appraisal of pip does not have, or has no "
        "more; look at it "
        "again");
  CHECK(refused("cause.0.odds", "three") ==
        "odds before the tests, gasket: found \"three\", expected a number, or low, likely and high");
  CHECK(refused("deal.asking", "1.250") ==
        "price asked: found \"1.250\", which may be 1250 or 1.250; write 1250 or 1.25");
  CHECK(refused("value.sound", "2.500 2900 3400").find("which may be 2500 or 2.500") != std::string::npos);
  CHECK(refused("cause.0.odds", "1.250") == "accepted");
  CHECK(refused("value.sound", "1,450.00, 1,600.00, 1,800.00") == "accepted");
  CHECK(refused("deal.asking", "1,234,567.00").find("which may be 1234567.00 or several numbers") !=
        std::string::npos);
  CHECK(refused("deal.asking", "800 900") ==
        "price asked: found \"800 900\", expected a number, or low, likely and high");
}

TEST_CASE("a change is put into the tree of the file at the line of what it takes the place of",
          "[answers]") {
  Pip pip;
  auto tree = kept_tree(pip.book(), "pip");
  REQUIRE(tree);
  const int line = tree->find("deal")->find("asking")->line;
  const Value rows = parse_toml(
      "by_hand = [{ at = \"deal.asking\", is = [850] }, { at = \"value.sound\", is = [2500, 2900, 3400] }, "
      "{ at = \"cause.7.odds\", is = [1] }]",
      "by hand");
  put_by_hand(*tree, *rows.find("by_hand"));
  CHECK(tree->find("deal")->find("asking")->text == "850");
  CHECK(tree->find("deal")->find("asking")->line == line);
  CHECK(tree->find("value")->find("sound")->items.size() == 3);
  CHECK(tree->find("cause")->items.size() == 2);
}

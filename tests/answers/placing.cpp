// Under which line of the budget an entry stands: its own, the one that was said, or one that is asked about.
#include "answers/placing.h"

#include "answers/pip.h"

using namespace nonrunner;
using namespace nonrunner::answers;

namespace {

std::string told(const Placing& placing) {
  return fmt::format("says {}, line \"{}\", number {}, close \"{}\"{}",
                     placing.says ? "\"" + *placing.says + "\"" : "nothing", placing.line, placing.number,
                     placing.close, placing.close_enough ? ", enough" : "");
}

}  // namespace

TEST_CASE("an entry stands under the line of its own name, and is asked about where it is close to one",
          "[answers]") {
  Pip pip;
  const Places places(pip.book(), "pip");
  CHECK(told(places.placing("SET", false)) == "says nothing, line \"set\", number 3, close \"\"");
  CHECK(told(places.placing("set of seals", false)) == "says nothing, line \"\", number 3, close \"set\"");
  CHECK(told(places.placing("rope", false)) == "says nothing, line \"\", number 0, close \"\"");
  CHECK(told(places.placing("wing", true)) == "says nothing, line \"wing\", number 8, close \"\"");
  CHECK(told(places.placing("", false)) == "says nothing, line \"\", number 0, close \"\"");
  CHECK(told(places.under("wing")) == "says nothing, line \"\", number 7, close \"wing\", enough");
}

TEST_CASE("a closed line is close to nothing, unless the quick line that closed it gives its place",
          "[answers]") {
  Pip pip;
  const book::EntryId quick = pip.bought("set", "118.00");
  CHECK(Places(pip.book(), "pip").placing("set of seals", false).close.empty());
  CHECK(Places(pip.book(), "pip", {quick}).placing("set of seals", false).close == "set");
  const auto budget = budget_of(pip.book(), "pip");
  REQUIRE(budget);
  CHECK(stood_under(*budget, {quick}) == std::vector<std::string>{"set"});
  CHECK(stood_under(*budget, {quick + 1}).empty());
}

TEST_CASE("a line that is said is one of the budget's, or none, or is refused", "[answers]") {
  Pip pip;
  const auto said = [&](const std::string& line) {
    std::string all;
    const std::string refused = book::Shop::said(
        [&] { all = told(placing_of(pip.book(), "receipt", "pip", "rope", std::string(line), false)); });
    return refused == "accepted" ? all : refused;
  };
  CHECK(said("3") == "says \"set\", line \"set\", number 3, close \"\"");
  CHECK(said("none") == "says \"\", line \"\", number 0, close \"\"");
  CHECK(said("readying") == "says \"readying\", line \"readying\", number 0, close \"\"");
  CHECK(said("sett").starts_with(
      "receipt: found \"sett\", expected a line of the budget of pip, by its number or its "
      "name, did you mean \"set\"?"));
  CHECK(line_named(pip.book(), "done", "pip", "4") == "operation 1");
  // The number of a line of money is no heading of hours.
  CHECK(book::Shop::said([&] { placing_of(pip.book(), "hours", "pip", "work", "3", true); })
            .starts_with(
                "hours: found line 3, set, which is one of money, expected a line of hours of the budget of "
                "pip"));
  CHECK(said("fees") == "says \"fees\", line \"fees\", number 1, close \"\"");
}

TEST_CASE("the answer to a question of place is what the entry says", "[answers]") {
  Placing placing;
  placing.number = 3;
  placing.close = "set";
  placing.close_enough = true;
  CHECK(answers::told(question_of(placing, "receipt", "set of seals")) ==
        "receipt: \"set of seals\": is that line 3, set?\n"
        "y: it stands under that line (for 3)\nn: it stands under none (for none)\n[y]");
  Placing no = placing;
  answer(placing, 0);
  CHECK(told(placing) == "says \"set\", line \"set\", number 3, close \"\", enough");
  answer(no, 1);
  CHECK(told(no) == "says \"\", line \"\", number 3, close \"\", enough");
}

TEST_CASE("two lines that are close are no ground for a question, one word is none for Enter", "[answers]") {
  Pip pip(appraisal::with(
      certain_job(), "{ name = \"set\", qty = 1, new = 118 }",
      "{ name = \"head gasket\", qty = 1, new = 118 }, { name = \"head bolts\", qty = 1, new = 9 }, "
      "{ name = \"hose, upper\", qty = 1, new = 5 }"));
  const Places places(pip.book(), "pip");
  CHECK(places.placing("head gasket, head bolts and more", false).close == "head gasket");
  CHECK(places.placing("gasket and bolts of the head", false).close.empty());
  CHECK(places.placing("gasket for the head", false).close.empty());
  CHECK(told(places.placing("the head gaskets", false)) ==
        "says nothing, line \"\", number 3, close \"head gasket\", enough");
  CHECK_FALSE(places.placing("rubber hose", false).close_enough);
}

TEST_CASE("a word that is money's and hours' is one line, two different ones are none", "[answers]") {
  Pip pip(
      appraisal::with(certain_job(), "hours = [[5, 7, 9], 2]",
                      "operations = [{ name = \"bleed\", hours = 2 }, { name = \"brakes off\", hours = 7 }]\n"
                      "consumables = [{ name = \"brake fluid\", qty = 1, price = 8 }]"));
  CHECK(line_if_named(pip.book(), "pip", "wing") == "wing");
  CHECK_FALSE(line_if_named(pip.book(), "pip", "brake"));
  CHECK(line_if_named(pip.book(), "pip", "ble") == "bleed");
  CHECK(line_if_wholly_named(pip.book(), "pip", "bleed") == "bleed");
  CHECK_FALSE(line_if_wholly_named(pip.book(), "pip", "ble"));
  // A beginning is enough where a line is named, and a name is no number of the other sort.
  const Placing by_beginning =
      placing_of(pip.book(), "receipt", "pip", "rope", std::string("brake fl"), false);
  CHECK(by_beginning.line == "brake fluid");
  CHECK(placing_of(pip.book(), "hours", "pip", "work", std::string("readying"), true).line == "readying");
}

#include "answers/question.h"

#include <catch2/catch.hpp>
#include <sstream>

#include "commands/ask.h"
#include "exact/ends.h"

using namespace nonrunner;
using answers::Choice;
using answers::Question;

namespace {

Question whose_paper() {
  return {
      "receipt",
      "61.37 from \"Cleave Yard\" fits a quick line that waits for its paper",
      {{"38", "it takes the place of entry 38", "replaces", "38"}, {"a", "it is another one", "again", ""}},
      0};
}

struct Desk {
  std::ostringstream out, err;
  std::istringstream in;
  commands::Terminal terminal{out, err, true, true, Day(2026, 5, 2), "2026-05-02T12:00:00Z", {}, &in};
  explicit Desk(const std::string& typed) : in(typed) {}
};

}  // namespace

TEST_CASE("a question is asked again until one of its answers is typed, and Enter is the usual one",
          "[answers]") {
  const std::string asked =
      "61.37 from \"Cleave Yard\" fits a quick line that waits for its paper\n"
      "  38  it takes the place of entry 38\n"
      "  a   it is another one\n"
      "which? [38] ";
  Desk enter("\n");
  CHECK(commands::ask(whose_paper(), enter.terminal) == 0);
  CHECK(enter.err.str() == asked);
  Desk slip("39\n A \n");
  CHECK(commands::ask(whose_paper(), slip.terminal) == 1);
  CHECK(slip.err.str() == asked + "found \"39\", expected 38 or a\n" + asked);
}

TEST_CASE("a yes or no is one line, and without a usual answer Enter is none", "[answers]") {
  Question question{"hours", "3 hours on wren as today at 10, another time", {}, {}};
  question.choices = {{"y", "they are others", "again", ""}, {"n", "they are the same", "", ""}};
  Desk desk("\nYes\n");
  CHECK(commands::ask(question, desk.terminal) == 0);
  const std::string asked = "3 hours on wren as today at 10, another time? [y/n] ";
  CHECK(desk.err.str() == asked + asked);
  question.usual = 1;
  Desk enter("\n");
  CHECK(commands::ask(question, enter.terminal) == 1);
  CHECK(enter.err.str() == "3 hours on wren as today at 10, another time? [y/N] ");
}

TEST_CASE("where nobody can be asked, a question is a refusal that names the options", "[answers]") {
  Desk desk("");
  CHECK_THROWS_WITH(commands::ask(whose_paper(), desk.terminal),
                    "receipt: the input ended before an answer; nothing was recorded");
  desk.terminal.in = nullptr;
  CHECK_THROWS_WITH(
      commands::ask(whose_paper(), desk.terminal),
      "receipt: 61.37 from \"Cleave Yard\" fits a quick line that waits for its paper; it takes "
      "the place of entry 38: --replaces 38; it is another one: --again");
}

TEST_CASE("a choice that no option stands for is not named where nobody can be asked", "[answers]") {
  const Question question{"hours",
                          "are these others",
                          {{"y", "they are others", "again", ""}, {"n", "leave it out", "", ""}},
                          {}};
  const auto spelled = [](const Choice& choice) { return "by " + choice.option; };
  CHECK(answers::refusal_of(question, spelled) == "hours: are these others; they are others: by again");
}

TEST_CASE("a choice is also said in its own words, and no is not yes", "[answers]") {
  Question question;
  question.choices = {{"y", "it is another one", "again", ""}, {"m", "leave it out", "", ""}};
  CHECK(choice_of(question, "It is ANOTHER one") == 0u);
  CHECK(choice_of(question, "leave it out") == 1u);
  CHECK_FALSE(choice_of(question, "no"));
}

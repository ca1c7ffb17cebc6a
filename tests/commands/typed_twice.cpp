// Money and ways that are typed in a moment are asked about when the same is there already, on every road alike.
#include <catch2/catch.hpp>

#include "commands/counter.h"

using namespace nonrunner;
using Catch::Matchers::Contains;

namespace {

class Prompt : public commands::Counter {
 public:
  Prompt() : Counter("twice") {
    run({"owner", "in", "2500", "--purse", "cash"});
    run({"buy", "pip", "900", "--purse", "cash"});
    run({"buy", "wren", "500", "--purse", "cash"});
  }
  commands::Words with(commands::Words words, const char* more) {
    words.emplace_back(more);
    return words;
  }
};

std::string on_one_line(std::string text) {
  for (auto at = text.find('\n'); at != std::string::npos; at = text.find('\n', at)) {
    const auto end = text.find_first_not_of(' ', at + 1);
    text.replace(at, end == std::string::npos ? text.size() - at : end - at, " ");
    ++at;
  }
  return text;
}

struct Case {
  commands::Words typed, other;  // the same thing; one that is another
  std::string called;
};

const std::vector<Case>& cases() {
  static const std::vector<Case> all = {{{"recover", "pip", "25", "old seat", "--purse", "cash"},
                                         {"recover", "wren", "25", "old seat", "--purse", "cash"},
                                         "recover: 25.00 into cash (\"old seat\") for pip on 2026-05-02"},
                                        {{"owner", "in", "100", "--purse", "cash"},
                                         {"owner", "out", "100", "--purse", "cash"},
                                         "owner in: 100.00 into cash on 2026-05-02"},
                                        {{"owner", "out", "60", "--purse", "cash"},
                                         {"owner", "out", "61", "--purse", "cash"},
                                         "owner out: 60.00 out of cash on 2026-05-02"},
                                        {{"trip", "pip,wren", "34", "parts run"},
                                         {"trip", "pip", "34", "parts run"},
                                         "trip: 34 mi (\"parts run\") for pip, wren on 2026-05-02"},
                                        {{"deposit", "pip", "200", "--purse", "cash"},
                                         {"deposit", "pip", "200", "--purse", "cash", "--date", "2026-05-01"},
                                         "deposit: 200.00 into cash for pip on 2026-05-02"}};
  return all;
}

}  // namespace

TEST_CASE("a sale of parts, the owner's money, a trip and a buyer's deposit are not entered twice unasked",
          "[commands]") {
  for (const Case& each : cases()) {
    Prompt prompt;
    CAPTURE(each.called);
    prompt.run(each.typed);
    REQUIRE(prompt.status == 0);
    CHECK(
        on_one_line(prompt.run(each.typed)) ==
        "nonrunner: " + each.called +
            " is in the book already, it seems (entry 4); is this another one; it is another one: --again ");
    CHECK(prompt.status == 1);
    prompt.run(each.other);
    CHECK(prompt.status == 0);
    CHECK_THAT(prompt.at_terminal(each.typed, "n\n"), Contains("left out; nothing was recorded"));
    CHECK(prompt.status == 1);
    CHECK_THAT(prompt.at_terminal(each.typed, "y\n"), Contains("entry 6: "));
    CHECK(prompt.status == 0);
    prompt.run(prompt.with(each.typed, "--again"));
    CHECK(prompt.status == 0);
  }
}

TEST_CASE("what was taken back is there no more, and is typed again unasked", "[commands]") {
  for (const Case& each : cases()) {
    Prompt prompt;
    CAPTURE(each.called);
    prompt.run(each.typed);
    prompt.run({"void", "4", "wrong"});
    prompt.run(each.typed);
    CHECK(prompt.status == 0);
  }
}

TEST_CASE("a file that brings the same once more says so with its key, or is refused", "[commands]") {
  Prompt prompt;
  const std::string once =
      "event = [{ do = \"trip\", date = 2026-05-02, vehicle = \"pip\", distance = 34, why = \"parts\" }]\n";
  const std::string again =
      "event = [{ do = \"trip\", date = 2026-05-02, vehicle = \"pip\", distance = 34, why = \"parts\", again "
      "= "
      "true }]\n";
  prompt.run({"post", prompt.file("once.toml", once)});
  REQUIRE(prompt.status == 0);
  CHECK_THAT(
      prompt.run({"post", prompt.file("twice.toml", once + "# once more\n")}),
      Contains("trip: 34 mi (\"parts\") for pip on 2026-05-02 is in the book already, it seems (entry 4)") &&
          Contains("again = true"));
  CHECK(prompt.status == 1);
  prompt.run({"post", prompt.file("again.toml", again)});
  CHECK(prompt.status == 0);
}

TEST_CASE("a file may have two of a kind on one day: whoever writes it sees both", "[commands]") {
  Prompt prompt;
  const std::string way =
      "{ do = \"trip\", date = 2026-05-02, vehicle = \"pip\", distance = 34, why = \"parts\" }";
  const std::string file = "event = [" + way + ", " + way + "]\n";
  prompt.run({"post", prompt.file("two.toml", file)});
  CHECK(prompt.status == 0);
  prompt.run({"post", prompt.file("once-more.toml", file + "# once more\n")});
  CHECK(prompt.status == 1);
}

TEST_CASE("parts of one price and ways of one length are told apart by their words", "[commands]") {
  Prompt prompt;
  for (const commands::Words& words :
       {commands::Words{"recover", "pip", "25", "wheel, left", "--purse", "cash"},
        commands::Words{"recover", "pip", "25", "wheel, right", "--purse", "cash"},
        commands::Words{"trip", "pip", "34", "parts run"},
        commands::Words{"trip", "pip", "34", "test drive"}}) {
    prompt.run(words);
    CHECK(prompt.status == 0);
  }
  prompt.run({"recover", "pip", "25", "Wheel, left", "--purse", "cash"});
  CHECK(prompt.status == 1);
}

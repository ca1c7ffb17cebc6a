// The answer taken along as a page: made by the command, whole, without script, never over another file.
#include <catch2/catch.hpp>

#include "commands/counter.h"
#include "text/toml.h"

using namespace nonrunner;

namespace {
std::size_t count_of(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++count;
  return count;
}
}  // namespace

TEST_CASE("the page to take along has every state once, and no script", "[commands]") {
  commands::Counter counter("take-along");
  const std::string job = NONRUNNER_SOURCE "/sample-jobs/drayman/job.toml";
  const std::string out = counter.file("out.html", "");
  std::filesystem::remove(out);
  const std::string said = counter.run({"appraise", job, "--take-along", out});
  CHECK(counter.status == 0);
  CHECK(said.find("\nto take along: out.html, 27 states of the tests, all there are\n") != std::string::npos);
  const std::string page = read_file(out);
  CHECK(count_of(page, "<strong>") == 27);
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("http") == std::string::npos);
  CHECK(count_of(page, "<details>") == count_of(page, "</details>"));
  // With nothing else seen it stands behind what the first test leads to. The first line of each state is what the
  // command says with that outcome seen.
  const std::string seen =
      counter.run({"appraise", job, "--seen", "watch the security lamp while cranking=lamp flashes"});
  const auto word = seen.find("\n  ") + 3;
  const std::string verdict = seen.substr(word, seen.find("  ", word) - word);
  const auto at = page.rfind("<summary>lamp flashes</summary>");
  CHECK(page.substr(at, 80).find("<strong>" + verdict + "</strong>") != std::string::npos);

  CHECK(counter.run({"appraise", job, "--take-along", out}) ==
        "nonrunner: out.html: there is something at this place already, expected a new name; to write over "
        "it all the "
        "same: "
        "--over\n");
  CHECK(counter.status == 1);
  CHECK(counter.run({"appraise", job, "--take-along", "out.txt"})
            .find("--take-along: found \"out.txt\", expected a name that ends in .html") !=
        std::string::npos);
  CHECK(counter.status == 2);
}

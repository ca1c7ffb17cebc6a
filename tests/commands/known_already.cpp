// What the book knows already is not asked for again, and what it does not know is said once with how to say it.
#include <catch2/catch.hpp>
#include <fstream>
#include <regex>
#include <sstream>

#include "appraisal/jobs.h"
#include "commands/session.h"

using namespace nonrunner;
using Catch::Matchers::Contains;
using commands::Said;
using commands::Session;

namespace {

struct Desk : Session {
  Desk() {
    type("start SHOP/shop.book");
    type("owner in 2500 --purse cash --date 2026-04-01");
    type("owner in 500 --purse card --date 2026-04-01");
    type("buy pip 900 --purse cash --date 2026-04-20");
  }
  // At a terminal where one has no patience: every step of a long work is said at once. What goes to the screen, whatever
  // it goes by, in its order.
  std::string screen(const std::string& line, const std::string& answers = "") {
    std::ostringstream out;
    std::istringstream in(answers);
    commands::Terminal terminal{
        out, out, true, true, today, now, {{"NONRUNNER_BOOK", (folder() / "shop.book").string()}}, &in};
    terminal.patience = std::chrono::milliseconds(0);
    commands::Words words = commands::words_of(line);
    for (std::string& word : words)
      if (const auto at = word.find("SHOP"); at != std::string::npos) word.replace(at, 4, folder().string());
    commands::run(words, terminal);
    return out.str();
  }
};

// What is left on a screen on which a return begins its line anew.
std::string as_left(const std::string& printed) {
  std::string all, line;
  std::size_t at = 0;
  for (const char c : printed) {
    if (c == '\r') {
      at = 0;
    } else if (c == '\n') {
      all += line.substr(0, line.find_last_not_of(' ') + 1) + "\n";
      line.clear();
      at = 0;
    } else {
      if (at == line.size()) line += ' ';
      line[at++] = c;
    }
  }
  return all + line;
}

}  // namespace

TEST_CASE("of how far a long work is, nothing is left on the screen behind what it came to", "[commands]") {
  Desk desk;
  desk.file("events.toml",
            "event = [ { do = \"hours\", date = 2026-04-21, vehicle = \"pip\", own = 1, operation = "
            "\"strip\" } ]\n");
  for (const char* line : {"check", "export SHOP/out", "restore SHOP/out --book SHOP/again.book",
                           "mend SHOP/again.book --book SHOP/mended.book", "post SHOP/events.toml"}) {
    INFO(line);
    const std::string printed = desk.screen(line);
    INFO(printed);
    CHECK(printed.find('\r') != std::string::npos);  // it was said
    const std::string left = as_left(printed);
    CHECK_FALSE(std::regex_search(left, std::regex("[0-9]+ of [0-9]+, ")));
  }
}

TEST_CASE("a tool's deposit comes back into the purse that it came out of", "[commands]") {
  Desk desk;
  desk.type("tool puller 20 --purse card");
  const std::string back = desk.screen("tool puller 20 --back");
  INFO(back);
  CHECK_THAT(back, Contains("deposit of 20.00 came back into card for \"puller\""));
  CHECK_THAT(back, !Contains("which purse"));
  // Each its own, whichever was paid or came back last.
  desk.type("owner in 50 --purse bank");
  for (const char* line : {"tool jack 20 --purse bank", "tool press 30 --purse cash",
                           "tool hoist 40 --purse card", "tool hoist 40 --back --purse cash"})
    CHECK(desk.type(line).status == 0);
  CHECK_THAT(desk.screen("tool jack 20 --back"), Contains("came back into bank for \"jack\""));
  CHECK_THAT(desk.screen("tool press 30 --back"), Contains("came back into cash for \"press\""));
}

TEST_CASE("a job file to begin with takes the hour of the book where one is set", "[commands]") {
  Desk desk;
  const auto hour_in = [&](const std::string& file) {
    const Said said = desk.type("new-job SHOP/" + file + " --complaint knocks");
    REQUIRE(said.status == 0);
    std::ifstream in(desk.folder() / file);
    std::string line;
    while (std::getline(in, line))
      if (line.starts_with("hour ")) return said.out.substr(said.out.find('\n') + 1) + line;
    return line;
  };
  CHECK(hour_in("a.toml") == "then: nonrunner appraise " + (desk.folder() / "a.toml").string() +
                                 "\nhour            = 20                 # what an own hour must earn");
  desk.type("set hour 37.50");
  CHECK(hour_in("b.toml") == "an own hour is to earn 37.5, as the book says\nthen: nonrunner appraise " +
                                 (desk.folder() / "b.toml").string() +
                                 "\nhour            = 37.5               # what an own hour must earn");
}

TEST_CASE("of a car with own hours it is said what they count as, while nobody said it", "[commands]") {
  Desk desk;
  const std::string words =
      "  nobody said what an own hour must earn: it counts as 0.00; say it: nonrunner\n    set hour 20\n";
  CHECK_THAT(desk.type("show pip").out, !Contains("nobody said"));
  desk.type("hours pip 4 brakes --date 2026-04-22");
  CHECK_THAT(desk.type("show pip").out, Contains(words));
  desk.type("sell pip 1500 --purse cash");
  CHECK_THAT(desk.type("show pip").out, Contains(words));
  desk.type("set hour 20");
  CHECK_THAT(desk.type("show pip").out, !Contains("nobody said"));
}

TEST_CASE("on a day before anything of a car was in the book that is all there is to say", "[commands]") {
  Desk desk;
  desk.file("job.toml", appraisal::small_job);
  desk.type("appraise SHOP/job.toml --keep --date 2026-04-11");
  CHECK(desk.type("show pip --on 2026-04-10").out ==
        "pip: nothing of it is in the book up to 2026-04-10; the first is of 2026-04-11\n");
  CHECK_THAT(desk.type("show pip --on 2026-04-11").out, Contains("pip considered, not bought in this book"));
  CHECK_THAT(desk.type("show pip --on 2026-04-20").out, Contains("BREAK-EVEN"));
}

TEST_CASE("a car that is bought says which fees are still to come", "[commands]") {
  Desk desk;
  desk.file("job.toml", appraisal::with(appraisal::small_job, "tag = \"pip\"", "tag = \"wren\""));
  desk.type("appraise SHOP/job.toml --keep");
  const std::string said = desk.type("buy wren 400 --fee title=20 --purse cash").out;
  INFO(said);
  CHECK(std::regex_search(std::regex_replace(said, std::regex("\\s+"), " "),
                          std::regex("of the fees that were expected \\(title, transport\\) [0-9.]+ stays to "
                                     "come until it is paid, or said "
                                     "to be done: nonrunner done wren fees")));
  // All of them paid with it: nothing is to come.
  Desk other;
  other.file("job.toml", appraisal::with(appraisal::small_job, "tag = \"pip\"", "tag = \"wren\""));
  other.type("appraise SHOP/job.toml --keep");
  CHECK_THAT(other.type("buy wren 400 --fee title=2000 --purse cash").out, !Contains("stays to come"));
}

TEST_CASE("a word behind an option is one of its own where the book knows the value before it",
          "[commands]") {
  Desk desk;
  desk.type("plan pip starter 45");
  const Said known = desk.type("receipt pip 12 --purse cash --for starter hoses");
  CHECK(known.status == 0);
  CHECK_THAT(known.out, Contains("hoses"));
  CHECK_THAT(known.out, Contains("  the for is starter, the words behind it are hoses\n"));
  const Said unknown = desk.type("receipt pip 13 --purse cash --for stator hoses");
  CHECK(unknown.status == 2);
  CHECK_THAT(unknown.err, Contains("expected --for \"stator hoses\", or the words before the option"));
  desk.type("clock on pip brakes --worker ann");
  CHECK(desk.type("clock off --worker ann").status == 0);
}

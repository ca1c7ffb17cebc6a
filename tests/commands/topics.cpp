// What the program explains: every page fits the screen and names only what there is, and every example in a
// reference does what it is an example of.
#include "commands/topics.h"

#include <algorithm>
#include <regex>
#include <set>
#include <sstream>

#include "appraisal/job_keys.h"
#include "commands/counter.h"
#include "commands/session.h"
#include "commands/topic_files.h"
#include "exact/ends.h"
#include "text/toml.h"
#include "text/unicode.h"

using namespace nonrunner;
using namespace nonrunner::commands;

namespace {

std::set<std::string> command_names() {
  std::set<std::string> names;
  for (const Command& command : all()) names.insert(command.usage.command);
  return names;
}

// What stands behind "nonrunner " in a text, where it is a word in small letters.
std::vector<std::string> named_in(const std::string& text) {
  std::vector<std::string> names;
  const std::regex call("nonrunner ([a-z]+(-[a-z]+)*)");
  for (auto at = std::sregex_iterator(text.begin(), text.end(), call); at != std::sregex_iterator(); ++at)
    names.push_back((*at)[1]);
  return names;
}

}  // namespace

TEST_CASE("every page of help fits 80 columns and names commands and topics that there are", "[commands]") {
  const auto commands = command_names();
  for (const Topic& topic : topics()) {
    const std::string text = topic_text(topic.name);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
      INFO(topic.name << ": " << line);
      CHECK(shown_width(line) <= 80);
    }
    for (const std::string& name : named_in(text)) {
      INFO(topic.name << ": nonrunner " << name);
      CHECK((commands.contains(name) || name == "help"));
    }
  }
}

TEST_CASE("help on a word that is neither a command nor a topic names the nearest", "[commands]") {
  CHECK_THROWS_WITH(topic_text("job-fille"),
                    "help: there is no command or topic \"job-fille\", did you mean \"job-file\"?");
  CHECK_THROWS_WITH(topic_text("frobnicate"),
                    "help: there is no command or topic \"frobnicate\"; see: nonrunner --help");
}

TEST_CASE("help receipt has the command first and the file's keys below it", "[commands]") {
  const std::string text = topic_text("receipt");
  const auto usage = text.find("nonrunner receipt [TAG] [AMOUNT] [WHAT] [OPTIONS]"),
             key = text.find("  on_account");
  CHECK(usage == 0);
  CHECK(key != std::string::npos);
  CHECK(text.find("supplier = \"Cleave Yard\"") > key);
}

TEST_CASE("the example of each reference is taken by the command that reads such files", "[commands]") {
  Counter counter("examples");
  const auto file = [&](const char* name) { return counter.file(name, topic_file(name)); };
  CHECK(counter.run({"appraise", file("job-file.toml")}).find("TEST FIRST: combustion gas in the coolant") !=
        std::string::npos);
  CHECK(counter.status == 0);
  CHECK(counter.run({"post", file("events.toml")}).find("4") != std::string::npos);
  CHECK(counter.status == 0);
  Counter other("examples-of-papers");
  other.run({"owner", "in", "2500", "--purse", "cash", "--date", "2026-04-01"});
  other.run({"buy", "pip", "900", "--date", "2026-04-04"});
  CHECK(other.run({"receipt", "--file", other.file("receipt.toml", topic_file("receipt.toml"))})
            .rfind("entry 3: 61.37 from cash on 2 lines from Cleave Yard", 0) == 0);
  Counter lists("examples-of-lists");
  lists.run({"owner", "in", "2500", "--purse", "cash", "--date", "2026-04-01"});
  lists.run({"buy", "pip", "900", "--date", "2026-04-04"});
  CHECK(lists.run({"receipt", "--csv", lists.file("receipts.csv", topic_file("receipts.csv"))})
            .find("1 paper added") != std::string::npos);
  CHECK(
      lists.run({"comparable", "add", "--csv", lists.file("comparables.csv", topic_file("comparables.csv"))})
          .find("2") != std::string::npos);
  CHECK(lists.status == 0);
}

TEST_CASE("every key that the reference of a job file lists is read, and no sample holds another",
          "[commands]") {
  // The reader takes its keys from the same list; what is left to look at is that none of them is only listed. Each
  // is found in the source of a reader.
  std::string readers;
  for (const char* name :
       {"src/appraisal/read_job.cpp", "src/appraisal/read_correction.cpp", "src/appraisal/read_test.cpp",
        "src/appraisal/names.cpp", "src/appraisal/job.cpp", "src/resale/read.cpp", "src/figures/aim.h"})
    readers += read_file(std::string(NONRUNNER_SOURCE) + "/" + name);
  int looked_at = 0;
  for (const FileTable& table : appraisal::job_tables())
    for (const FileKey& each : table.keys) {
      INFO(table.head << " " << each.key);
      CHECK(readers.find("\"" + std::string(each.key) + "\"") != std::string::npos);
      ++looked_at;
    }
  CHECK(looked_at > 80);
}
TEST_CASE("the README names every command, none that there is not, and ends before line 150", "[commands]") {
  const std::string text = read_file(std::string(NONRUNNER_SOURCE) + "/README.md");
  CHECK(std::count(text.begin(), text.end(), '\n') <= 150);
  const auto commands = command_names();
  for (const std::string& name : commands) {
    INFO(name);
    CHECK((text.find("nonrunner " + name) != std::string::npos ||
           text.find("`" + name + "`") != std::string::npos));
  }
  for (const std::string& name : named_in(text)) {
    INFO("nonrunner " << name);
    CHECK((commands.contains(name) || name == "help"));
  }
  for (const Topic& topic : topics()) {
    INFO(topic.name);
    if (topic.name != "go-on") CHECK(text.find("help " + topic.name) != std::string::npos);
  }
}

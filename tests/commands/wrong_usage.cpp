// Every mistake in an option or a word ends with status 2, one line on standard error, nothing on standard
// output and the book as it was.
#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "commands/season.h"
#include "text/toml.h"
using namespace nonrunner;
using namespace nonrunner::commands;

namespace {

// A call of each command that is right, so that one mistake at a time can be made in it.
const std::map<std::string, std::string> right = {
    {"start", "SHOP/new.book"},
    {"buy", "finch 500 --purse cash"},
    {"receipt", "teal 45 lamp --purse cash"},
    {"return", "R05.3"},
    {"core", "clutch"},
    {"hours", "teal 1 clutch"},
    {"clock", "show"},
    {"draw", "teal gloves 1"},
    {"count", "gloves 70"},
    {"shelve", "lamp 1 --from teal --amount 5"},
    {"stock", ""},
    {"transfer", "teal pip 5 lamp"},
    {"recover", "teal 5 lamp --purse cash"},
    {"advertise", "teal 2400"},
    {"deposit", "teal 100 --purse cash"},
    {"sell", "teal 2400 --purse cash"},
    {"cost", "teal 20 advert --purse cash"},
    {"part-out", "teal 300"},
    {"write-off", "teal"},
    {"pass", "finch"},
    {"trip", "teal 12 parts"},
    {"note", "teal scratch"},
    {"plan", "teal 88 matrix"},
    {"done", "robin --ready"},
    {"attach", "teal SHOP/title.jpg"},
    {"tool", "press 60 --purse cash"},
    {"pay", "\"Millgate Parts\" 5 --purse cash"},
    {"owner", "in 5 --purse cash"},
    {"move", "cash bank 5"},
    {"void", "42 --why twice"},
    {"correct", "20 --what cooling"},
    {"undo", ""},
    {"post", "SHOP/more.toml"},
    {"vehicles", ""},
    {"show", "pip"},
    {"entries", ""},
    {"due", ""},
    {"tray", ""},
    {"purses", ""},
    {"set", "hour 20"},
    {"close", "2026-04-30"},
    {"check", ""},
    {"backup", "SHOP/copy.book"},
    {"export", "SHOP/export"},
    {"restore", "SHOP/export --book SHOP/again.book"},
    {"year", "2026"},
    {"serve", "--devices"},
    {"workbook", "profit pip SHOP/pip.xlsx"},
    {"appraise", "SHOP/job.toml"},
    {"choose", "SHOP/job.toml --cash 4000"},
    {"mend", "SHOP/shop.book --book SHOP/mended.book"},
    {"new-job", "SHOP/new.toml --complaint knocks"},
    {"fixes", "SHOP/job.toml"},
    {"price", "robin"},
    {"learn", ""},
    {"go-on", "teal --file SHOP/courses.toml"},
    {"comparable", "add --csv SHOP/comparables.csv"},
    {"under", "teal discovery --operation clutch"},
};

// The invented job of the samples, for a car that is bought here.
std::string job_of_robin() {
  std::string job = read_file(NONRUNNER_SOURCE "/sample-jobs/sprat/job.toml");
  const std::string tag = "\"sprat\"";
  job.replace(job.find(tag), tag.size(), "\"robin\"");
  return job;
}

// What does not fit where a value of this kind is expected.
const std::map<std::string, std::string> unfit = {
    {"DAY", "2026-02-30"},     {"AMOUNT", "1,5,0"}, {"RATE", "half"}, {"N", "x"},
    {"NAME=AMOUNT", "advert"}, {"ENTRY", "0"},      {"KIND", "prat"}, {"SOURCE", "yard"},
    {"CODE", "USB"},           {"UNIT", "m"},
};
const std::vector<std::string> unfit_words = {"PRICE", "AMOUNT", "N",      "QTY",         "DISTANCE",
                                              "DATE",  "ENTRY",  "in|out", "on|off|show", "KIND"};

class Desk : public Season {
 public:
  Desk() {
    file("job.toml", job_of_robin());
    file("courses.toml",
         "hour = 20\nholding_per_day = 2\n[[course]]\nname = \"mend it\"\nbrings = 900\n[[course]]\nname = "
         "\"sell it\"\nbrings = "
         "500\n");
    file("comparables.csv",
         "price,kind,odometer,year,grade,date,note\n3900,asking,88000,2012,3,2026-03-01,seen\n");
    file("more.toml",
         "event = [ { do = \"trip\", date = 2026-04-20, vehicle = \"teal\", distance = 4, why = \"parts\" } "
         "]\n");
    REQUIRE(type("buy robin 500 --purse bank --date 2026-04-20 --job SHOP/job.toml").status == 0);
    REQUIRE(type("note robin \"pump gone\" --cause \"coolant pump failed\" --date 2026-04-21").status == 0);
  }
  // Types the line, which has to be wrong usage; gives what was said about it.
  std::string wrong(const std::string& line) { return wrong(words_of(line)); }
  std::string wrong(Words words) {
    for (std::string& word : words)
      if (const auto at = word.find("SHOP"); at != std::string::npos) word.replace(at, 4, folder().string());
    const Said said = run(words);
    std::string line = "nonrunner";
    for (const std::string& word : words) line += " " + word;
    INFO(line << "\n" << said.err << said.out);
    CHECK(said.status == 2);
    CHECK(said.out == "");
    CHECK(std::count(said.err.begin(), said.err.end(), '\n') == 1);
    CHECK(said.err.rfind("nonrunner: ", 0) == 0);
    return said.err;
  }
  std::string seal() { return type("check --json").out; }
};

std::string call(const Command& command) {
  return command.usage.command + " " + right.at(command.usage.command);
}

std::vector<std::string> words_in(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> words;
  for (std::string word; in >> word;) words.push_back(word);
  return words;
}

}  // namespace

TEST_CASE("an unknown option is wrong usage for every command, and the nearest one is named", "[commands]") {
  Desk desk;
  const std::string before = desk.seal();
  for (const Command& command : all()) {
    const std::string name = command.usage.command;
    CHECK(desk.wrong(call(command) + " --frobnicate") ==
          "nonrunner: " + name + ": unknown option \"--frobnicate\"; see: nonrunner " + name + " --help\n");
    CHECK(desk.wrong(call(command) + " --jsom") ==
          "nonrunner: " + name + ": unknown option \"--jsom\", did you mean \"--json\"?\n");
    for (const Option& option : command.usage.options) {
      if (option.name.size() < 4) continue;
      const std::string slip = option.name.substr(0, option.name.size() - 1) + "z";
      CHECK(
          desk.wrong(call(command) + " --" + slip + "=1").find(", did you mean \"--" + option.name + "\"?") !=
          std::string::npos);
    }
  }
  CHECK(desk.seal() == before);
}

TEST_CASE("an option without its value, with one too many, or given twice is wrong usage", "[commands]") {
  Desk desk;
  const std::string before = desk.seal();
  for (const Command& command : all())
    for (const Option& option : command.usage.options) {
      if (right.at(command.usage.command).find("--" + option.name) != std::string::npos) continue;
      if (option.value.empty()) {
        desk.wrong(call(command) + " --" + option.name + "=1");
        continue;
      }
      desk.wrong(call(command) + " --" + option.name);
      desk.wrong(call(command) + " --" + option.name + "=");
      if (!option.repeats)
        CHECK(desk.wrong(call(command) + " --" + option.name + " 1 --" + option.name + " 1") ==
              "nonrunner: " + command.usage.command + ": --" + option.name +
                  " is given twice, expected once\n");
    }
  CHECK(desk.seal() == before);
}

TEST_CASE("an option's value that does not fit is wrong usage", "[commands]") {
  Desk desk;
  const std::string before = desk.seal();
  int tried = 0;
  for (const Command& command : all())
    for (const Option& option : command.usage.options) {
      const auto value = unfit.find(option.value);
      if (value == unfit.end() ||
          right.at(command.usage.command).find("--" + option.name) != std::string::npos)
        continue;
      std::string line = call(command);
      if (command.usage.command == "clock") line = "clock off";
      desk.wrong(line + " --" + option.name + " " + value->second);
      ++tried;
    }
  CHECK(tried > 50);
  CHECK(desk.seal() == before);
}

TEST_CASE("a word too many, a word missing, or one that does not fit is wrong usage", "[commands]") {
  Desk desk;
  const std::string before = desk.seal();
  for (const Command& command : all()) {
    const std::vector<std::string> pattern = words_in(command.usage.words);
    Words words = words_of(right.at(command.usage.command)), options;
    const auto first_option = std::find_if(words.begin(), words.end(),
                                           [](const std::string& word) { return word.rfind("--", 0) == 0; });
    options.assign(first_option, words.end());
    words.erase(first_option, words.end());
    const auto typed = [&](Words these) {
      these.insert(these.begin(), command.usage.command);
      these.insert(these.end(), options.begin(), options.end());
      return desk.wrong(these);
    };
    Words more = words;
    while (more.size() <= pattern.size()) more.push_back("more");
    // Where one of them is text, what is left over belongs to it.
    const bool takes_more = std::any_of(pattern.begin(), pattern.end(), [](const std::string& word) {
      return word.find("...") != std::string::npos || word.find("WHAT") != std::string::npos ||
             word.find("OPERATION") != std::string::npos || word.find("WHY") != std::string::npos ||
             word.find("SUPPLIER") != std::string::npos || word.find("TEXT") != std::string::npos ||
             word.find("ITEM") != std::string::npos || word.find("HEADING") != std::string::npos;
    });
    if (!takes_more) typed(more);
    if (!pattern.empty() && pattern.front().front() != '[') typed({});
    for (std::size_t i = 0; i < pattern.size() && i < words.size(); ++i) {
      std::string kind = pattern[i];
      kind.erase(std::remove_if(kind.begin(), kind.end(), [](char c) { return c == '[' || c == ']'; }),
                 kind.end());
      if (command.usage.command == "plan") continue;  // what is no amount begins the name
      if (std::find(unfit_words.begin(), unfit_words.end(), kind) == unfit_words.end()) continue;
      Words these = words;
      these[i] = "much";
      typed(these);
    }
  }
  CHECK(desk.seal() == before);
}

TEST_CASE("every command has a right call in these tests, which does what it says", "[commands]") {
  for (const Command& command : all()) {
    Desk desk;
    desk.type("export SHOP/export");
    if (command.usage.command == "export") desk.type("note teal \"there is an export already\"");
    // A clock still runs on the car, and a car is not sold under it.
    if (command.usage.command == "sell" || command.usage.command == "write-off") desk.type("clock off");
    if (command.usage.command == "write-off") desk.type("part-out teal 0");  // of a running car it is refused
    std::string line = call(command);
    if (command.usage.command == "export") line += "-2";
    const Said said = desk.type(line);
    INFO(line << "\n" << said.err);
    CHECK(said.status == 0);
    CHECK(said.err == "");
    CHECK(said.out != "");
    CHECK(said.out.back() == '\n');
  }
}

TEST_CASE("no command, an unknown one, and words that are no text are wrong usage", "[commands]") {
  Desk desk;
  CHECK(desk.wrong("") == "nonrunner: which command? see: nonrunner --help\n");
  CHECK(desk.wrong("vehicels") == "nonrunner: unknown command \"vehicels\", did you mean \"vehicles\"?\n");
  CHECK(desk.wrong("frobnicate") == "nonrunner: unknown command \"frobnicate\"; see: nonrunner --help\n");
  CHECK(desk.wrong("--halp") == "nonrunner: unknown command \"--halp\"; see: nonrunner --help\n");
  CHECK(desk.wrong(Words{"note", "teal", "caf\xe9"}) ==
        "nonrunner: note: a word on the command line is not UTF-8 text, expected UTF-8\n");
  CHECK(desk.wrong(Words{"note", "teal", "\xed\xa0\x80"}) ==
        "nonrunner: note: a word on the command line is not UTF-8 text, expected UTF-8\n");
}

TEST_CASE("a negative amount is a word, not an option", "[commands]") {
  Desk desk;
  const Said said = desk.type("owner in -5 --purse cash");
  CHECK(said.status == 1);
  CHECK(said.err == "nonrunner: owner in: the amount is -5.00, expected more than 0\n");
}

TEST_CASE(
    "an empty text where words are needed is refused, so that every entry can be written out and read again",
    "[commands]") {
  Desk desk;
  desk.type("clock off");
  for (const auto& [line, what] :
       std::map<std::string, std::string>{{"hours teal 1 \"\"", "hours: the operation"},
                                          {"trip teal 5 \"\"", "trip: the purpose"},
                                          {"recover teal 5 \"\" --purse cash", "recover: what"},
                                          {"cost teal 5 \"\" --purse cash", "cost: what"},
                                          {"transfer teal pip 5 \"\"", "transfer: what"},
                                          {"tool 5 \"\" --purse cash", "tool deposit: what"},
                                          {"note teal \"\"", "note: the text"},
                                          {"shelve \"\" 1 --from teal --amount 5", "shelve: the item"},
                                          {"clock on teal \"\"", "clock on: the operation"}}) {
    const Said empty = desk.type(line);
    INFO(line);
    CHECK(empty.status == 1);
    CHECK(empty.err == "nonrunner: " + what + " is empty, expected a few words\n");
  }
  CHECK(desk.type("receipt teal 5 \"\" --purse cash").err ==
        "nonrunner: receipt: line \"\" does not say what was bought, expected a few words\n");
  CHECK(desk.type("receipt teal 5 lamp --whole --purse cash").err ==
        "nonrunner: receipt: a whole paper needs its supplier; say who, or that there was no paper: "
        "--supplier NAME, or --no-paper\n");
}

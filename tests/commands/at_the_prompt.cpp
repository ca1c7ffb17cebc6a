// Words at the prompt: their order, no quotes for the last ones, short commands.
#include <catch2/catch.hpp>
#include <sstream>

#include "commands/counter.h"

using namespace nonrunner;

namespace {

class Prompt : public commands::Counter {
 public:
  Prompt() : Counter("prompt") {
    run({"owner", "in", "2500", "--purse", "cash", "--date", "2026-04-01"});
    run({"buy", "pip", "900", "--date", "2026-04-20"});
  }
};

}  // namespace

TEST_CASE("the last words need no quotes", "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"hours", "pip", "1:30", "pull", "the", "lamp"}) ==
        "entry 3: 1.5 own hours on pip: pull the lamp\n");
  CHECK(prompt.run({"receipt", "Pip", "$52,50", "starter", "motor"})
            .rfind("entry 4: 52.50 from cash for pip, starter motor", 0) == 0);
  CHECK(prompt.run({"note", "pip", "wet", "between", "cylinders"}) == "entry 5: noted for pip\n");
  CHECK(prompt.run({"trip", "pip", "34", "view", "and", "test"}) ==
        "entry 6: 34 mi for pip: view and test\n");
  CHECK(prompt.run({"plan", "pip", "88", "heater", "matrix", "--hours", "3"}) ==
        "entry 7: planned for pip: heater matrix, 88.00, 3 own hours\n");
  CHECK(prompt.run({"plan", "pip", "heater", "hose", "12,50"}) ==
        "entry 8: planned for pip: heater hose, 12.50\n");
  CHECK(prompt.run({"plan", "pip", "new", "plates", "--hours", "0:30"}) ==
        "entry 9: planned for pip: new plates, 0.5 own hours\n");
  CHECK(prompt
            .run({"receipt", "nitrile gloves", "10", "a box", "of 100", "--kind", "stock", "--whole",
                  "--supplier", "Harrow Wholesale"})
            .rfind("entry 10: 10.00 from cash for a box of 100", 0) == 0);
  CHECK(prompt.run({"draw", "pip", "nitrile", "gloves", "1"}) ==
        "entry 11: 1 of \"nitrile gloves\" to pip\n");
  CHECK(prompt.run({"void", "9", "not", "needed", "after", "all"}) ==
        "entry 12: entry 9 (plan of 2026-05-02: pip, new plates) is taken back\n");
  CHECK(prompt.run({"pass", "wren", "asked", "too", "much", "--new"}) ==
        "entry 13: wren was looked at and left; what looking cost is overhead\n  new vehicle: wren\n");
}

TEST_CASE("what it is about comes first; the number first is still taken where it can be nothing else",
          "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"move", "cash", "bank", "300", "--new"}) ==
        "entry 3: 300.00 from cash to bank\n  new purse: bank\n");
  CHECK(prompt.run({"move", "100", "cash", "bank"}) == "entry 4: 100.00 from cash to bank\n");
  CHECK(prompt.run({"tool", "pressure-fill", "tool", "60", "--purse", "cash"}) ==
        "entry 5: deposit of 60.00 paid from cash for \"pressure-fill tool\"\n");
  CHECK(prompt.run({"tool", "60", "spring", "press", "--purse", "cash"}) ==
        "entry 6: deposit of 60.00 paid from cash for \"spring press\"\n");
  const std::string paper = prompt.file("paper.toml", R"(date = 2026-05-01
supplier = "Tarn Tyres"
on_account = true
total = 120.00
line = [{ what = "tyres", qty = 2, unit = 60.00, kind = "part", to = "pip" }]
)");
  prompt.run({"receipt", "--file", paper});
  CHECK(prompt.run({"pay", "Tarn", "Tyres", "45", "--purse", "cash"}) ==
        "entry 8: paid 45.00 to Tarn Tyres, from cash\n");
  CHECK(prompt.run({"pay", "45", "Tarn", "Tyres", "--purse", "cash"}) ==
        "entry 9: paid 45.00 to Tarn Tyres, from cash\n");
  // Two numbers: the order that is shown holds, and nothing is turned round.
  CHECK(prompt.run({"sell", "944", "2950", "--purse", "cash"}).find("944") != std::string::npos);
  CHECK(prompt.run({"owner", "in", "1,234", "--purse", "cash"}) ==
        "nonrunner: owner: found \"1,234\", which may be 1234 or 1.234; write 1234 or 1.23; see: nonrunner "
        "owner --help\n");
}

TEST_CASE("days are taken as one says them", "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"hours", "pip", "1", "brakes", "--date", "yesterday"}) ==
        "entry 3: 1 own hour on pip: brakes\n  dated 2026-05-01\n");
  CHECK(prompt.run({"hours", "pip", "2", "brakes", "--date=-3"}) ==
        "entry 4: 2 own hours on pip: brakes\n  dated 2026-04-29\n");
  const std::string entries = prompt.run({"entries", "pip"});
  CHECK(entries.find("2026-05-01") != std::string::npos);
  CHECK(entries.find("2026-04-29") != std::string::npos);
  prompt.run({"receipt", "pip", "45", "starter", "--core", "18", "--core-by", "15", "--id", "starter"});
  CHECK(prompt.run({"due"}).find("2026-05-15") != std::string::npos);
  CHECK(prompt.run({"close", "04-30"}).find("closed up to 2026-04-30") != std::string::npos);
}

TEST_CASE("r, h, n and s stand for a command everywhere, another beginning only at a terminal",
          "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"h", "pip", "1", "brakes"}) == "entry 3: 1 own hour on pip: brakes\n");
  CHECK(prompt.run({"n", "pip", "rust", "in", "the", "sill"}) == "entry 4: noted for pip\n");
  CHECK(prompt.run({"r", "pip", "45", "lamp"}).rfind("entry 5: 45.00 from cash for pip, lamp", 0) == 0);
  CHECK(prompt.run({"s", "pip"}).find("BREAK-EVEN") != std::string::npos);
  CHECK(prompt.run({"purs"}) == "nonrunner: unknown command \"purs\"; see: nonrunner --help\n");
  CHECK(prompt.status == 2);
  CHECK(prompt.at_terminal({"purs"}).find("cash") != std::string::npos);
  CHECK(prompt.at_terminal({"rec", "pip"}) ==
        "nonrunner: \"rec\" is the beginning of several commands: receipt, recover; type one letter more\n");
  CHECK(prompt.status == 2);
}

TEST_CASE("a box goes onto the shelf as its pieces, and a count says what it is worth", "[commands]") {
  Prompt prompt;
  const commands::Words box = {"receipt", "gloves",  "14",         "box of gloves",   "--kind",
                               "stock",   "--whole", "--supplier", "Harrow Wholesale"};
  CHECK(prompt.run(box).rfind("entry 3: 14.00 from cash for box of gloves", 0) == 0);
  CHECK(prompt.run({"draw", "pip", "gloves", "10"}) ==
        "nonrunner: draw: 10 of \"gloves\", but 1 on the shelf; where the shelf holds more: nonrunner count "
        "\"gloves\" N; where a box was entered as one piece, take its entry back and enter it with --gives "
        "PIECES\n");
  // Found a hundred times as many, at the price of the box each: asked about where somebody is there.
  CHECK(prompt.at_terminal({"count", "gloves", "100"})
            .find("count: the input ended before an answer; nothing was recorded") != std::string::npos);
  CHECK(prompt.run({"void", "3", "one", "box"}) ==
        "entry 4: entry 3 (receipt of 2026-05-02: Harrow Wholesale, box of gloves) is\n  taken back, into "
        "cash\n");
  commands::Words pieces = box;
  pieces.insert(pieces.end(), {"--gives", "100"});
  CHECK(prompt.run(pieces).rfind("entry 5: 14.00 from cash for box of gloves", 0) == 0);
  CHECK(prompt.run({"draw", "pip", "gloves", "10"}) == "entry 6: 10 of \"gloves\" to pip\n");
  CHECK(prompt.run({"count", "gloves", "80"}) ==
        "entry 7: 80 of \"gloves\" found, 90 in the book before; 1.40 less on the shelf,\n  overhead\n");
  CHECK(prompt.run({"draw", "pip", "gloves", "4"}) ==
        "entry 8: 4 of \"gloves\" to pip\n  \"gloves\" was counted on that day: this was drawn before, and "
        "80 are "
        "still\n    there\n");
  CHECK(prompt.run({"receipt", "pip", "5", "belt", "--gives", "3"})
            .find("found --gives without --kind stock, expected both") != std::string::npos);
}

TEST_CASE("a purse that holds less than nothing, a day that was not said in full and what is owed are told",
          "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"owner", "out", "1700", "--purse", "cash"}).find("  cash is at -100.00 with that\n") !=
        std::string::npos);
  CHECK(prompt.run({"hours", "pip", "1", "brakes", "--date", "-3"}).find("  dated 2026-04-29\n") !=
        std::string::npos);
  CHECK(prompt.run({"hours", "pip", "1", "brakes", "--date", "2026-04-29", "--again"}).find("dated") ==
        std::string::npos);
  CHECK(prompt.run({"receipt", "pip", "12", "belt", "--on-account", "--supplier", "Fenton Counter"})
            .find("12.00 for pip, belt, on account at Fenton Counter") != std::string::npos);
  CHECK(prompt
            .run({"receipt", "pip", "13", "belt", "--on-account", "--purse", "cash", "--supplier",
                  "Fenton Counter"})
            .find("found --on-account and --purse, expected one of them") != std::string::npos);
}

TEST_CASE("money of a car that was never bought is refused with what to do", "[commands]") {
  Prompt prompt;
  prompt.run({"pass", "wren", "asked too much", "--new"});
  const std::string way =
      ", expected a car that was bought; enter the purchase first: nonrunner buy wren PRICE\n";
  CHECK(prompt.run({"deposit", "wren", "100"}) == "nonrunner: deposit: wren is passed" + way);
  CHECK(prompt.run({"cost", "wren", "20", "advert"}) == "nonrunner: cost: wren is passed" + way);
  CHECK(prompt.run({"advertise", "wren", "900"}) == "nonrunner: advertise: wren is passed" + way);
  CHECK(prompt.run({"done", "wren", "--ready"}) == "nonrunner: done: wren is passed" + way);
  // A name that is a new one is no leave for anything else, whoever types.
  CHECK(prompt.run({"deposit", "wren", "100", "--new"}) == "nonrunner: deposit: wren is passed" + way);
  // A part that was bought for it is sold on.
  CHECK(prompt.run({"recover", "wren", "5", "seat"}).find("entry ") == 0);
}

TEST_CASE("a thousand with a point, and money of elsewhere, are refused before anything is booked",
          "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"receipt", "pip", "1.250", "gearbox"}) ==
        "nonrunner: receipt: found \"1.250\", which may be 1250 or 1.250; write 1250 or 1.25; see: nonrunner "
        "receipt --help\n");
  CHECK(prompt.run({"sell", "pip", "\u20ac2950"}).find("in a book that is kept in USD") != std::string::npos);
  CHECK(prompt.run({"set", "hour", "1.250"}).find("write 1250 or 1.25") != std::string::npos);
  CHECK(prompt.run({"set", "hour", "$22"}) == "hour is 22\n");
  CHECK(prompt.run({"hours", "pip", "1.250", "brakes"}) == "entry 3: 1.25 own hours on pip: brakes\n");
  CHECK(prompt.run({"correct", "3", "--amount", "1.500"}).find("entry 5: entry 3 put right") == 0);
  CHECK(prompt.run({"correct", "2", "--amount", "1.500"}).find("write 1500 or 1.50") != std::string::npos);
}

TEST_CASE("a file of events with nothing in it is refused with what belongs there", "[commands]") {
  Prompt prompt;
  const std::string file = prompt.file("none.toml", "# later\n");
  CHECK(prompt.run({"post", file}) ==
        "nonrunner: none.toml: found nothing, expected [[event]] and under it do = \"owner in\" or the like, "
        "once "
        "for each event; see: nonrunner help events\n");
  CHECK(prompt.status == 1);
}

TEST_CASE("where another amount than the price comes in, a sale says both and why", "[commands]") {
  Prompt prompt;
  prompt.run({"deposit", "pip", "200"});
  CHECK(prompt.run({"sell", "pip", "2950", "--cost", "advert=20", "--commission", "3%"})
            .find("entry 4: sold pip for 2,950.00, 2,641.50 into cash: the price less a deposit of\n"
                  "  200.00 and costs of 108.50\n") == 0);
  Prompt plain;
  CHECK(plain.run({"sell", "pip", "2950"}).find("entry 3: sold pip for 2,950.00, into cash\n") == 0);
  Prompt taxed;
  CHECK(taxed.run({"sell", "pip", "1000", "--tax", "60"})
            .find("entry 3: sold pip for 1,000.00, 1,060.00 into cash: the price with 60.00 of tax\n") == 0);
}

TEST_CASE("a car that is gone is not asked about before it is refused", "[commands]") {
  Prompt prompt;
  prompt.run({"sell", "pip", "1500"});
  CHECK(
      prompt.at_terminal({"done", "pip"}).rfind("nonrunner: done: pip was sold on 2026-05-02 (entry 3)", 0) ==
      0);
}

TEST_CASE("words of one text on both sides of an option are refused: its value may have been two words",
          "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"receipt", "pip", "12", "hoses", "--supplier", "Cleave", "Yard", "--purse", "cash"}) ==
        "nonrunner: receipt: found \"hoses\" and \"Yard\" on both sides of an option, expected the words of "
        "[WHAT] "
        "side by side; an option's value of two words needs quotes; see: nonrunner receipt --help\n");
  CHECK(prompt.status == 2);
  CHECK(prompt.run({"hours", "pip", "2", "front", "brakes", "--date", "fri"}).find("pip: front brakes\n") !=
        std::string::npos);
  CHECK(prompt.run({"hours", "--date", "thu", "pip", "2", "front", "brakes"}).find("pip: front brakes\n") !=
        std::string::npos);
  CHECK(prompt.run({"hours", "pip", "3", "--date", "wed", "front", "brakes"}).find("pip: front brakes\n") !=
        std::string::npos);
  CHECK(prompt.run({"pass", "wren", "asked", "--new", "too", "much"}).find("wren was looked at") !=
        std::string::npos);
}

TEST_CASE("words straight behind a name are its second word or words of their own, and never guessed",
          "[commands]") {
  Prompt prompt;
  int amount = 12;
  const auto bought_from = [&](const std::string& supplier, const std::string& thing) {
    return prompt.run(
        {"receipt", "pip", std::to_string(amount++), "--purse", "cash", "--supplier", supplier, thing});
  };
  CHECK(
      bought_from("Cleave", "Yard") ==
      "nonrunner: receipt: found --supplier Cleave and then \"Yard\", which may be one name or two things, "
      "expected --supplier \"Cleave Yard\", or the words before the option; see: nonrunner receipt --help\n");
  CHECK(prompt.status == 2);
  // As it says.
  CHECK(prompt.run({"receipt", "pip", "12", "hoses", "--supplier", "Cleave", "--purse", "cash"})
            .find("pip, hoses") != std::string::npos);
  CHECK(bought_from("Cleave Yard", "lamp").find("pip, lamp") != std::string::npos);
  // The book knows "Cleave Yard" by now, and "Cleave" as well.
  CHECK(bought_from("Cleave", "yard") ==
        "nonrunner: receipt: found --supplier Cleave and then \"yard\", which may be one name or two things "
        "(the book knows \"Cleave Yard\"), expected --supplier \"Cleave Yard\", or the words before the "
        "option; "
        "see: nonrunner receipt --help\n");
  // A shop's name may have a digit, and go on.
  CHECK(bought_from("Route9", "Yard").find("which may be one name or two things") != std::string::npos);
  CHECK(bought_from("Cleave", "clamps").find("  the supplier is Cleave, the words behind it are clamps\n") !=
        std::string::npos);
  CHECK(
      prompt.run({"receipt", "pip", "23", "--purse", "cash", "--number", "3071", "belt"}).find("number is") ==
      std::string::npos);
  CHECK(prompt.run({"receipt", "pip", "24", "--purse", "cash", "--supplier=Millgate", "pump"})
            .find("pip, pump") != std::string::npos);
  CHECK(prompt.run({"sell", "pip", "1500", "--to", "Anna", "Lind"}) ==
        "nonrunner: sell: found 3 words, expected TAG PRICE; a value of two words needs quotes: --to \"Anna "
        "Lind\"; see: nonrunner sell --help\n");
}

TEST_CASE(
    "a whole line without a supplier, and a shelf's item without words, are said what is missing or taken",
    "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"receipt", "pip", "31.40", "hose", "--whole"}) ==
        "nonrunner: receipt: a whole paper needs its supplier; say who, or that there was no paper: "
        "--supplier NAME, "
        "or --no-paper\n");
  CHECK(prompt.run({"receipt", "coolant", "47.25", "--kind", "stock"})
            .rfind("entry 3: 47.25 from cash for coolant", 0) == 0);
  CHECK(prompt.run({"receipt", "coolant", "--kind", "stock"}) ==
        "nonrunner: receipt: found 1 word, expected ITEM AMOUNT and, where it is not the item, WHAT, or "
        "--file or "
        "--csv; see: nonrunner receipt --help\n");
  CHECK(prompt.run({"shelve", "wheel", "4"}) ==
        "nonrunner: shelve: found neither --line nor --from with --amount, expected what comes to the shelf "
        "by one "
        "of them; see: nonrunner shelve --help\n");
}

TEST_CASE("at a terminal a car, purse or supplier that looks like a known one is asked about", "[commands]") {
  Prompt prompt;
  CHECK(prompt.at_terminal({"pass", "asked", "too", "much"}, "n\n") ==
        "pass: no vehicle has the tag \"asked\"; is it a new one? [y/N] nonrunner: pass: no vehicle has the "
        "tag "
        "\"asked\"; see: nonrunner vehicles\n");
  CHECK(prompt.at_terminal({"pass", "wren", "asked too much"}, "y\n").find("entry 3: wren was looked at") !=
        std::string::npos);
  CHECK(prompt.run({"pass", "teal", "rust"}).find("new vehicle: teal") != std::string::npos);
  const std::string asked = prompt.at_terminal({"owner", "in", "5", "--purse", "cush"}, "y\n");
  CHECK(asked.find("owner in: there is no purse \"cush\", did you mean \"cash\"? is it a new one? [y/N]") ==
        0);
  CHECK(asked.find("entry 5: ") != std::string::npos);
  CHECK(prompt.at_terminal({"owner", "in", "5", "--purse", "cosh"}, "n\n")
            .find("if it is a new one, say so with --new\n") != std::string::npos);
  CHECK(prompt.status == 1);
}

TEST_CASE("a year or a day that has not come yet is refused where one looks back", "[commands]") {
  Prompt prompt;
  const std::string year = "found 2027, which has not come yet, expected 2026 at the latest";
  CHECK(prompt.run({"year", "2027"}) == "nonrunner: year: " + year + "; see: nonrunner year --help\n");
  CHECK(prompt.run({"vehicles", "--year", "2027"}).find(year) != std::string::npos);
  CHECK(prompt.run({"workbook", "year", "2027", "a.xlsx"}).find(year) != std::string::npos);
  for (const char* command : {"purses", "stock"})
    CHECK(prompt.run({command, "--on", "2026-05-03"})
              .find("--on: found 2026-05-03, which has not come yet, expected 2026-05-02 at the latest") !=
          std::string::npos);
  CHECK(prompt.run({"show", "pip", "--on", "2026-05-03"}).find("which has not come yet") !=
        std::string::npos);
  CHECK(prompt.run({"due", "--on", "2026-05-03"}) == "nothing is due back\n");
}

TEST_CASE("a purse that is not there yet is remarked on where one says what it is", "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"set", "purse.cahs", "liability"}) ==
        "purse.cahs is liability\n  there is no purse \"cahs\" yet, did you mean \"cash\"?\n");
  CHECK(prompt.run({"set", "purse.cash", "asset"}) == "purse.cash is asset\n");
}

TEST_CASE("-h is --help", "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"stock", "-h"}) == prompt.run({"stock", "--help"}));
  CHECK(prompt.status == 0);
}

TEST_CASE("a number that is no line's is no name at the prompt either", "[commands]") {
  Prompt prompt;
  CHECK(prompt.run({"hours", "pip", "1", "99"})
            .find("nonrunner: hours: found \"99\", expected words, or the number of a "
                  "line of pip's budget") == 0);
  CHECK(prompt.status == 1);
  CHECK(prompt.run({"owner", "in", "1,450.00", "--purse", "cash"}).find("1,450.00") != std::string::npos);
  CHECK(prompt.status == 0);
}

TEST_CASE("a car that was looked at is asked about once where its tag is close to a known one",
          "[commands]") {
  Prompt prompt;
  prompt.run({"pass", "troupe", "asked", "too", "much", "--new"});
  const std::string said = prompt.at_terminal({"pass", "troup", "rot"}, "y\n");
  CHECK(said ==
        "pass: no vehicle has the tag \"troup\", did you mean \"troupe\"? is it a new one?\n  [y/N] entry 4: "
        "troup was looked at and left; what looking cost is overhead\n  new vehicle: troup (one letter off "
        "\"troupe\")\n");
}

TEST_CASE("one hour is one, and one day is one", "[commands]") {
  Prompt prompt;
  prompt.run({"clock", "on", "pip", "strip"});
  CHECK(prompt.run({"clock", "off", "--hours", "1"}).find("entry 3: 1 hour on pip: strip\n") == 0);
  CHECK(prompt.run({"plan", "pip", "bleed", "the", "brakes", "--hours", "1"}) ==
        "entry 4: planned for pip: bleed the brakes, 1 own hour\n");
  CHECK(prompt.run({"hours", "pip", "1", "wash"}) == "entry 5: 1 own hour on pip: wash\n");
  prompt.run({"sell", "pip", "1500", "--date", "2026-05-02"});
  CHECK(prompt.run({"export", prompt.book().parent_path().string() + "/out"}).find("6 entries written") !=
        std::string::npos);
}

TEST_CASE("undo asks where others entered something since, as what they entered stands", "[commands]") {
  Prompt prompt;
  const auto as = [&](const char* login, commands::Words words, const std::string& answers = "") {
    std::ostringstream out, err;
    std::istringstream in(answers);
    words.insert(words.end(), {"--book", prompt.book().string()});
    commands::Terminal terminal{
        out, err, true, true, prompt.today, "2026-05-02T12:00:00Z", {{"LOGNAME", login}}, &in};
    prompt.status = commands::run(words, terminal);
    return err.str() + out.str();
  };
  as("ann", {"trip", "pip", "34", "view"});
  as("bo", {"trip", "pip", "12", "parts"});
  const std::string asked = as("ann", {"undo"}, "\n");
  CHECK(asked.find("others have entered something since, which stands; what you typed last:") == 0);
  CHECK(asked.find("entry 3, trip of") != std::string::npos);
  CHECK(asked.find("undo: left as it is; nothing recorded") != std::string::npos);
  CHECK(as("bo", {"undo"}).find("taken back: entry 4, ") == 0);  // the newest of all: nothing to ask
  // What one typed before is the next to go, and nothing of others stands after it now.
  as("ann", {"trip", "pip", "8", "more"});
  CHECK(as("ann", {"undo"}).find("taken back: entry 6, ") == 0);
  CHECK(as("ann", {"undo"}).find("taken back: entry 3, ") == 0);
}

TEST_CASE("what was bought is not put right to cost nothing or less", "[commands]") {
  Prompt prompt;
  prompt.run({"receipt", "pip", "64", "starter", "--core", "12", "--purse", "cash"});
  for (const char* amount : {"-3", "0"}) {
    CHECK(prompt.run({"correct", "3", "--amount", amount}).find("nonrunner: correct: found an amount of ") ==
          0);
    CHECK(prompt.status == 1);
  }
}

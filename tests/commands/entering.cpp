// Entering without mistakes: what may be there already is asked about, the purse is named, a car that nobody knows
// is no slip of the finger, and what was typed can be put right or taken back.
#include <catch2/catch.hpp>
#include <sstream>

#include "book/care/check.h"
#include "book/ledger/entry.h"
#include "book/questions/figures.h"
#include "commands/counter.h"

using namespace nonrunner;

namespace {

class Desk : public commands::Counter {
 public:
  explicit Desk(const std::string& name) : Counter(name) {}
  std::string show(const std::string& tag) { return run({"show", tag, "--json"}); }
  Money cost(const std::string& tag) {
    const book::Book kept = book::Book::open(book());
    return book::figures_of(kept, tag, today).cost;
  }
  bool sound() {
    const book::Book kept = book::Book::open(book());
    return book::check(kept).sound;
  }
  book::EntryId last() { return book::last_entry(book::Book::open(book())); }
};

Money usd(const std::string& amount) { return Money::parse(amount, Currency{}); }

constexpr const char* paper = R"(date = 2026-05-01
supplier = "Cleave Yard"
number = "3071"
paid = { cash = 61.37 }
total = 61.37
line = [{ id = "radiator", what = "radiator", unit = 53.37, core = 8.00, kind = "part", to = "pip" }]
)";

}  // namespace

TEST_CASE("a paper that fits a quick line asks whose place it takes, and a pipe is told how to say it",
          "[commands]") {
  Desk desk("paper-asked");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"receipt", "pip", "61.37", "radiator", "--date", "2026-05-01"});
  const std::string file = desk.file("paper.toml", paper);
  CHECK(desk.run({"receipt", "--file", file}) ==
        "nonrunner: receipt: 61.37 from Cleave Yard may be the paper of a quick line in the tray; it "
        "takes the "
        "place of entry 2: radiator, 61.37 on 2026-05-01: --replaces 2; it is another one: --again\n");
  CHECK(desk.status == 1);
  CHECK(desk.last() == 2);
  const std::string said = desk.at_terminal({"receipt", "--file", file}, "\n");
  CHECK(said.find("which? [2] entry 4: 61.37 from cash for pip, radiator\n") != std::string::npos);
  CHECK(desk.cost("pip") == usd("953.37"));
  CHECK(desk.sound());
}

TEST_CASE("two quick lines of one day and purse may give their place to one paper", "[commands]") {
  Desk desk("two-lines");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"receipt", "pip", "60.00", "radiator", "--date", "2026-05-01"});
  desk.run({"receipt", "pip", "1.37", "clip", "--date", "2026-05-01"});
  const std::string file = desk.file("paper.toml", paper);
  const std::string said = desk.run({"receipt", "--file", file});
  CHECK(said.find("takes the place of entries 2,3: radiator and clip, 61.37 on 2026-05-01: --replaces 2,3") !=
        std::string::npos);
  CHECK(desk.run({"receipt", "--file", file, "--replaces", "2,3"}).find("61.37 from cash") !=
        std::string::npos);
  CHECK(desk.cost("pip") == usd("953.37"));
  CHECK(desk.run({"tray"}).find("radiator") == std::string::npos);
  CHECK(desk.sound());
}

TEST_CASE("a paper of another car, purse or supplier fits no quick line, nor one of long ago", "[commands]") {
  Desk desk("no-fit");
  desk.run({"buy", "pip", "900", "--date", "2026-04-01"});
  desk.run({"buy", "teal", "900", "--date", "2026-04-01"});
  desk.run({"receipt", "teal", "61.37", "radiator", "--date", "2026-05-01"});
  desk.run({"receipt", "pip", "61.37", "radiator", "--supplier", "Harrow", "--date", "2026-05-01"});
  desk.run({"receipt", "pip", "61.37", "radiator", "--date", "2026-04-20"});
  desk.run({"receipt", "pip", "58.00", "bumper", "--date", "2026-05-01"});
  CHECK(desk.run({"receipt", "--file", desk.file("paper.toml", paper)}).find("entry ") != std::string::npos);
  CHECK(desk.status == 0);
}

TEST_CASE("what is entered on a car after its sale says so", "[commands]") {
  Desk desk("late");
  desk.run({"buy", "pip", "900", "--date", "2026-04-01"});
  desk.run({"sell", "pip", "1500", "--date", "2026-04-20"});
  CHECK(desk.run({"hours", "pip", "2", "front brakes"})
            .find("pip was sold on 2026-04-20; this comes after it, and counts as late") !=
        std::string::npos);
  CHECK(desk.run({"hours", "pip", "1", "front brakes", "--date", "2026-04-19"}).find("counts as late") ==
        std::string::npos);
}

TEST_CASE("a quick line and hours like those of the same day are asked about", "[commands]") {
  Desk desk("again");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"receipt", "pip", "5.40", "clamp"});
  CHECK(desk.run({"receipt", "pip", "5.40", "clamp"}) ==
        "nonrunner: receipt: 5.40 on 2026-05-02 is in the book already, it seems (entry 2); is this "
        "another one; "
        "it is another one: --again\n");
  CHECK(
      desk.at_terminal({"receipt", "pip", "5.40", "clamp"}, "n\n").find("left out, as it is there already") !=
      std::string::npos);
  CHECK(desk.status == 1);
  CHECK(desk.at_terminal({"receipt", "pip", "5.40", "clamp"}, "y\n")
            .find("entry 3: 5.40 from cash for pip, clamp") != std::string::npos);
  desk.run({"hours", "pip", "2", "front brakes"});
  CHECK(desk.run({"hours", "pip", "2", "front brakes"})
            .find("(entry 4); are these others; they are others: --again") != std::string::npos);
  CHECK(desk.run({"hours", "pip", "2", "front brakes", "--again"}).find("entry 5: 2 own hours") !=
        std::string::npos);
  CHECK(desk.run({"hours", "pip", "13", "strip"}) ==
        "nonrunner: hours: 13 own hours on 2026-05-02 beside 4 that are there, more than 16; were they so "
        "many; "
        "they were: --long-day\n");
  CHECK(desk.run({"hours", "pip", "21", "strip"}) ==
        "nonrunner: hours: 21 own hours on 2026-05-02 beside 4 that are there, expected at most 24 on one "
        "day; those of several days: --from DAY\n");
  CHECK(desk.run({"hours", "pip", "27", "strip", "--from", "2026-04-29", "--date", "2026-05-01"})
            .find("over 3 days from 2026-04-29") != std::string::npos);
  CHECK(desk.sound());
}

TEST_CASE("a file that is posted is looked through as well, and a key says that it is another one",
          "[commands]") {
  Desk desk("posted");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"receipt", "pip", "61.37", "radiator", "--date", "2026-05-01"});
  const std::string event =
      R"({ do = "receipt", date = 2026-05-01, supplier = "Cleave Yard", paid = "cash", total = 61.37, KEY line = [{ what = "radiator", amount = 61.37, kind = "part", to = "pip" }] })";
  const auto with = [&](const std::string& key) {
    std::string text = event;
    text.replace(text.find("KEY"), 3, key);
    return desk.run({"post", desk.file("events.toml", "event = [\n" + text + "\n]\n")});
  };
  CHECK(with("") ==
        "nonrunner: events.toml:2: receipt: a paper over 61.37 fits the quick line of 2026-05-01 over 61.37 "
        "(entry 2); "
        "say that it takes its place, or that it is another one: replaces = 2, or again = true\n");
  CHECK(with("replaces = 2,").find("posted: entry 4\n") != std::string::npos);
}

TEST_CASE("of a list only what agrees with one quick line to the cent takes its place by itself",
          "[commands]") {
  Desk desk("csv");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"receipt", "pip", "61.37", "radiator", "--date", "2026-05-01"});
  desk.run({"receipt", "pip", "20.00", "hose", "--date", "2026-05-01"});
  const std::string file = desk.file("list.csv",
                                     "date,supplier,number,purse,what,amount,kind,to\n"
                                     "2026-05-01,Cleave Yard,1,cash,radiator,61.37,part,pip\n"
                                     "2026-05-01,Cleave Yard,2,cash,hose,20.10,part,pip\n"
                                     "2026-05-01,Cleave Yard,3,cash,belt,9.00,part,pip\n");
  const std::string said = desk.run({"receipt", "--csv", file});
  CHECK(said.find("row 2, 2026-05-01 Cleave Yard 1, 61.37: takes the place of 2 as entry 5\n") !=
        std::string::npos);
  CHECK(said.find("row 3, 2026-05-01 Cleave Yard 2, 20.10: left out, as it may be the paper of 3;") !=
        std::string::npos);
  CHECK(said.find("row 4, 2026-05-01 Cleave Yard 3, 9.00: added as entry 6\n") != std::string::npos);
  CHECK(said.find("2 papers added, 0 were there already, 1 left out\n") != std::string::npos);
  // The same list once more: what was left out is in no book yet.
  const std::string again = desk.run({"receipt", "--csv", file});
  CHECK(again.find("row 3, 2026-05-01 Cleave Yard 2, 20.10: left out, as it may be the paper of 3;") !=
        std::string::npos);
  CHECK(again.find("0 papers added, 2 were there already, 1 left out (this file was taken in before)\n") !=
        std::string::npos);
  CHECK(desk.run({"receipt", "--csv", file, "--row", "3", "--replaces", "3"})
            .find("row 3, 2026-05-01 Cleave Yard 2, 20.10: takes the place of 3 as entry 8\n") !=
        std::string::npos);
  CHECK(desk.cost("pip") == usd("990.47"));
  CHECK(desk.run({"receipt", "--csv", file, "--row", "3"})
            .find("row 3, 2026-05-01 Cleave Yard 2, 20.10: was there already as 8\n") != std::string::npos);
  CHECK(desk.sound());
}

TEST_CASE(
    "the purse that was left out is the supplier's, then the command's, and without a person it is refused",
    "[commands]") {
  Desk desk("purse");
  desk.run({"buy", "pip", "900", "--purse", "bank", "--date", "2026-04-20"});
  CHECK(desk.run({"cost", "pip", "20", "advert"}).find("from bank") != std::string::npos);  // the only one
  desk.run({"receipt", "pip", "10", "clip", "--supplier", "Cleave Yard", "--purse", "cash"});
  CHECK(
      desk.run({"receipt", "pip", "11", "nut"}) ==
      "nonrunner: receipt: which purse does the money go through; bank: --purse bank; cash: --purse cash\n");
  CHECK(
      desk.at_terminal({"receipt", "pip", "11", "nut", "--supplier", "Cleave Yard"}, "").find("from cash") !=
      std::string::npos);
  CHECK(desk.at_terminal({"cost", "pip", "21", "advert"}, "").find("from bank") != std::string::npos);
  CHECK(desk.at_terminal({"recover", "pip", "5", "seat"}, "2\n").find("into cash") != std::string::npos);
}

TEST_CASE("a car that the book does not know is asked about, and refused where nobody is there",
          "[commands]") {
  Desk desk("unknown-car");
  desk.run({"buy", "wren", "900", "--date", "2026-04-20"});
  CHECK(desk.run({"receipt", "wre", "5", "clip"}) ==
        "nonrunner: receipt: no vehicle has the tag \"wre\", did you mean \"wren\"? if it is a new one, say "
        "so with "
        "--new\n");
  CHECK(desk.status == 1);
  CHECK(desk.run({"hours", "dunlin", "1", "looking"}) ==
        "nonrunner: hours: no vehicle has the tag \"dunlin\"; if it is a new one, say so with --new\n");
  CHECK(desk.last() == 1);
  CHECK(desk.at_terminal({"hours", "dunlin", "1", "looking"}, "\n").find("no vehicle has the tag") !=
        std::string::npos);
  CHECK(desk.last() == 1);
  CHECK(desk.at_terminal({"hours", "dunlin", "1", "looking"}, "y\n").find("entry 2: 1 own hour on dunlin") !=
        std::string::npos);
  CHECK(desk.run({"hours", "heron", "1", "looking", "--new"}).find("entry 3:") != std::string::npos);
}

TEST_CASE("an entry is put right with what hangs on it, in one step", "[commands]") {
  Desk desk("correct");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"receipt", "--file", desk.file("pump.toml", R"(date = 2026-04-22
supplier = "Millgate Parts"
number = "7"
paid = { card = 82.00 }
total = 82.00
line = [{ id = "pump", what = "coolant pump", unit = 64.00, core = 18.00, kind = "part", to = "pip" }]
)")});
  desk.run({"core", "pump", "--date", "2026-04-25"});
  CHECK(desk.cost("pip") == usd("964.00"));
  const std::string said = desk.run({"correct", "2", "--amount", "46"});
  CHECK(said ==
        "entry 6: entry 2 put right, from card: receipt of 2026-04-22: Millgate Parts, 7,\n"
        "  coolant pump; carried along: entry 7\n");
  CHECK(desk.cost("pip") == usd("946.00"));
  CHECK(desk.run({"due"}).find("core") == std::string::npos);
  CHECK(desk.run({"correct", "2", "--amount", "46"}) ==
        "nonrunner: correct: entry 2 was put right already, as entry 6; put that right\n");
  CHECK(desk.run({"correct", "6"}).find("nothing of entry 6 is changed") != std::string::npos);
  CHECK(desk.run({"correct", "6", "--purse", "bank", "--date", "2026-04-23"}).find("from bank") !=
        std::string::npos);
  CHECK(desk.sound());
}

TEST_CASE("hours on the wrong car go to the right one", "[commands]") {
  Desk desk("correct-hours");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"buy", "teal", "900", "--date", "2026-04-20"});
  desk.run({"hours", "pip", "3", "front brakes"});
  CHECK(desk.run({"correct", "3", "--to", "teal", "--amount", "2.5"}) ==
        "entry 5: entry 3 put right: hours of 2026-05-02: teal, front brakes\n");
  CHECK(desk.show("teal").find("2.5") != std::string::npos);
  CHECK(desk.run({"correct", "5", "--to", "tael"})
            .find("no vehicle has the tag \"tael\", did you mean \"teal\"?") != std::string::npos);
  CHECK(desk.sound());
}

TEST_CASE("undo takes back the last thing typed, whole, and a paper gives its place back", "[commands]") {
  Desk desk("undo");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"receipt", "pip", "61.37", "radiator", "--date", "2026-05-01"});
  desk.run({"receipt", "--file", desk.file("paper.toml", paper), "--replaces", "2"});
  CHECK(desk.cost("pip") == usd("953.37"));
  const std::string said = desk.run({"undo"});
  CHECK(said.find("taken back: entry 4, receipt of 2026-05-01: Cleave Yard, 3071, radiator\n") !=
        std::string::npos);
  CHECK(said.find("as it was, now entry 6, receipt of 2026-05-01: radiator\n") != std::string::npos);
  CHECK(desk.cost("pip") == usd("961.37"));
  CHECK(desk.run({"tray"}).find("radiator") != std::string::npos);
  CHECK(desk.sound());
  // The correction of an entry goes back whole.
  desk.run({"correct", "6", "--amount", "60"});
  CHECK(desk.cost("pip") == usd("960.00"));
  desk.run({"undo"});
  CHECK(desk.cost("pip") == usd("961.37"));
  CHECK(desk.sound());
}

TEST_CASE("undo takes back the last of two corrections of one entry, then the one before, then the entry",
          "[commands]") {
  Desk desk("undo-corrections");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"receipt", "pip", "61.37", "radiator", "--date", "2026-05-01"});
  desk.run({"correct", "2", "--amount", "60"});
  desk.run({"correct", "4", "--amount", "59"});
  desk.run({"undo"});
  CHECK(desk.cost("pip") == usd("960.00"));
  const std::string said = desk.run({"undo"});
  CHECK(said.find("taken back: entry 8, receipt of 2026-05-01: radiator\n") != std::string::npos);
  CHECK(said.find("as it was, now entry 10, receipt of 2026-05-01: radiator\n") != std::string::npos);
  CHECK(desk.cost("pip") == usd("961.37"));
  // Put right once more in between, it goes the same way.
  desk.run({"correct", "10", "--amount", "70"});
  desk.run({"undo"});
  CHECK(desk.cost("pip") == usd("961.37"));
  desk.run({"undo"});
  CHECK(desk.cost("pip") == usd("900.00"));
  CHECK(desk.status == 0);
  CHECK(desk.sound());
}

TEST_CASE("undo takes back an entry whose void was undone", "[commands]") {
  Desk desk("undo-void");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"receipt", "pip", "61.37", "radiator", "--date", "2026-05-01"});
  desk.run({"void", "2", "twice"});
  desk.run({"undo"});
  CHECK(desk.cost("pip") == usd("961.37"));
  desk.run({"undo"});
  CHECK(desk.cost("pip") == usd("900.00"));
  // What was taken back by its number stays so.
  desk.run({"receipt", "pip", "5", "clip"});
  desk.run({"void", "6", "never"});
  desk.run({"undo"});
  CHECK(desk.sound());
}

TEST_CASE("undo takes back no entry where a setting was the last thing typed", "[commands]") {
  Desk desk("undo-desk");
  desk.run({"buy", "pip", "300", "--purse", "cash"});
  std::ostringstream out, err;
  commands::Terminal later{out, err, true, true, desk.today, "2026-05-02T12:05:00Z", {}, nullptr};
  CHECK(commands::run({"set", "hour", "20", "--book", desk.book().string()}, later) == 0);
  CHECK(desk.run({"undo"}).find(
            "undo: the setting hour was changed after entry 1 was typed, and is no entry: say it anew; "
            "to take that entry back all the same, void it: nonrunner void 1 --why \"...\"\n") !=
        std::string::npos);
}

TEST_CASE("one name that is said to be new lets no other one pass", "[commands]") {
  Desk desk("new-names");
  desk.run({"owner", "in", "900", "--purse", "cash"});
  desk.run({"buy", "pip", "300", "--purse", "cash"});
  desk.run({"receipt", "pip", "5", "clip", "--supplier", "Cleave Yard", "--purse", "cash"});
  const std::string said = desk.at_terminal(
      {"receipt", "pip", "6", "lamp", "--supplier", "Cleve Yard", "--purse", "cush"}, "y\nn\n");
  CHECK(desk.status == 1);
  CHECK(said.find("there is no supplier \"Cleve Yard\"") != std::string::npos);
  CHECK(said.find("there is no purse \"cush\"") != std::string::npos);
  desk.at_terminal({"receipt", "pip", "6", "lamp", "--supplier", "Cleve Yard", "--purse", "cash"}, "y\n");
  CHECK(desk.status == 0);
  CHECK(desk.cost("pip") == usd("311.00"));
}

TEST_CASE("an option that ends with itself parts no words, and -h is help wherever it stands", "[commands]") {
  Desk desk("parts-no-words");
  desk.run({"buy", "pip", "300", "--date", "2026-04-20"});
  CHECK(desk.run({"hours", "pip", "1", "front", "--date=2026-04-21", "brakes"}).find("front brakes") !=
        std::string::npos);
  CHECK(desk.status == 0);
  CHECK(desk.run({"note", "pip", "rust", "-h"}).find("nonrunner note TAG") != std::string::npos);
}

TEST_CASE("undo goes back one at a time, and not beyond a day", "[commands]") {
  Desk desk("undo-more");
  desk.run({"buy", "pip", "900", "--date", "2026-04-20"});
  desk.run({"receipt", "pip", "5", "clip"});
  desk.run({"note", "pip", "rust at the sill"});
  desk.run({"undo"});
  desk.run({"undo"});
  CHECK(desk.cost("pip") == usd("900.00"));
  desk.run({"undo"});
  CHECK(desk.status == 0);
  CHECK(desk.run({"undo"}) ==
        "nonrunner: undo: nothing was typed here in the last 24 hours; an older entry: void it by its "
        "number\n");
  CHECK(desk.status == 1);
  CHECK(desk.sound());
}

TEST_CASE("a tag typed with capitals is the same car", "[commands]") {
  Desk desk("capitals");
  desk.run({"buy", "Pip", "900", "--date", "2026-04-20"});
  CHECK(desk.run({"hours", "PIP", "1", "front brakes"}).find("1 own hour on pip") != std::string::npos);
  CHECK(desk.run({"receipt", "Gloves", "9", "box", "--kind", "stock", "--whole", "--no-paper"})
            .find("entry 3") != std::string::npos);
  CHECK(desk.run({"stock"}).find("Gloves") != std::string::npos);
  const std::string event =
      R"(event = [{ do = "trip", date = 2026-05-01, vehicle = "PIP", distance = 5, why = "yard" }])";
  CHECK(desk.run({"post", desk.file("trip.toml", event)}).find("posted: entry 4\n") != std::string::npos);
  CHECK(desk.run({"vehicles"}).find("PIP") == std::string::npos);
}

TEST_CASE("what is put right in a closed period counts from the first open day, and says so", "[commands]") {
  Desk desk("correct-closed");
  desk.run({"buy", "pip", "900", "--date", "2026-04-01"});
  desk.run({"receipt", "pip", "40", "lamp", "--no-paper", "--date", "2026-04-10"});
  desk.run({"close", "2026-04-15"});
  const std::string said = desk.run({"correct", "2", "--amount", "50"});
  CHECK(said.find("entry 2 put right, from cash: receipt of 2026-04-16: lamp") != std::string::npos);
  CHECK(said.find("is closed: it counts from 2026-04-16") != std::string::npos);
  CHECK(said.find("2026-04-16") != std::string::npos);
  CHECK(desk.cost("pip") == usd("950.00"));
  CHECK(desk.sound());
}

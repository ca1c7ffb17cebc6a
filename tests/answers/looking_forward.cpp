// What looks forward, on an invented car whose tests point to one cause: what is still to come, the break-even
// price, what is done, and what the hours say of the pace. Amounts are worked out by hand beside each check.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "answers/brindle.h"
#include "answers/known.h"

using Catch::Matchers::Contains;
using Catch::Matchers::Equals;
using nonrunner::Day;
using nonrunner::answers::Brindle;
using nonrunner::answers::brindle_job;

TEST_CASE("tests seen before the purchase count after it, and both ends of the doubt are named",
          "[answers]") {
  Brindle car("tests");
  car.run({"appraise", car.job_file, "--seen", "bubbles in the header tank=none", "--keep", "--date",
           "2026-04-02"});
  REQUIRE(car.status == 0);
  car.buy();
  // 0.5 x 0.9 against 0.5 x 0.2: 45 of 55.
  CHECK(car.shown()["budget"]["cause"] == "water pump or radiator");
  CHECK_THAT(car.shown()["budget"]["cause_chance"].get<double>(), Catch::WithinAbs(45.0 / 55, 1e-12));
  // 70 + 18 + 2 x 15 for the pump, 95 + 20 for the faults; 157 of the 160 of fees are paid, which is nine tenths.
  CHECK(car.to_come() == "233.00");
  // 900 + 157 + 233 + 45.
  CHECK(car.break_even() == "1335.00");
  const std::string text = car.said({"show", "brindle"});
  CHECK_THAT(text, Contains("water pump or radiator\", the likeliest (82 %)"));
  CHECK_THAT(
      text, Contains("nobody looked for it yet, so it is not in the break-even price: rot that does not show "
                     "(10 %, 150.00)"));
  // The gasket: 140 + 110 + 0.15 x 566 + 115 = 449.90, and 900 + 157 + 449.90 + 45.
  CHECK_THAT(text, Contains("if it is \"head gasket leaks\" (18 %): break-even 1,551.90, with 449.90"));
  // The floor is the same figure.
  CHECK(nlohmann::json::parse(car.run({"price", "brindle", "--json"}))["floor"] == "1335.00");
  CHECK_THAT(car.said({"price", "brindle"}),
             Contains("if it is head gasket leaks (18 %) the floor is 1,551.90"));
}

TEST_CASE("a car that was appraised is appraised again by its tag, with what was found since", "[answers]") {
  Brindle car("again");
  car.run({"appraise", car.job_file, "--keep", "--date", "2026-04-02"});
  const auto appraised = [&](std::vector<std::string> words) {
    words.insert(words.begin(), "appraise");
    words.insert(words.end(), {"--json", "--points", "512"});
    return nlohmann::json::parse(car.run(words));
  };
  const auto by_file =
      appraised({car.job_file, "--seen", "bubbles in the header tank=steady", "--offer", "700"});
  CHECK(appraised({"brindle", "--seen", "1=2", "--offer", "700"}) == by_file);
  car.run({"note", "brindle", "they say", "--seen", "1=2"});
  REQUIRE(car.status == 0);
  CHECK(appraised({"brindle", "--offer", "700"}) == by_file);
  CHECK_THAT(car.said({"show", "brindle"}), Contains("appraised on 2026-04-02: ") &&
                                                Contains("asked 900.00") && Contains("they say") &&
                                                Contains("seen: bubbles in the header tank = steady"));
  CHECK_THAT(car.run({"appraise", "tolly"}),
             Equals("nonrunner: appraise: no vehicle has the tag \"tolly\"; see: nonrunner vehicles\n"));
}

TEST_CASE("a test seen after the purchase moves the cause, and a cause that is found stands above it",
          "[answers]") {
  Brindle car("after");
  car.buy();
  car.run({"note", "brindle", "bubbling hard", "--seen", "1=2", "--date", "2026-04-06"});
  REQUIRE(car.status == 0);
  CHECK(car.shown()["budget"]["cause"] == "head gasket leaks");
  CHECK(car.to_come() == "449.90");
  car.run({"note", "brindle", "the pump after all", "--cause", "water", "--date", "2026-04-07"});
  REQUIRE(car.status == 0);
  CHECK(car.shown()["budget"]["cause"] == "water pump or radiator");
  CHECK(car.shown()["budget"]["cause_is_noted"] == true);
  CHECK_THAT(car.said({"show", "brindle"}),
             Contains("speaks against \"water pump or radiator\": bubbles in the header tank = steady"));
  CHECK(car.to_come() == "233.00");
  // As it stood before: nobody had looked.
  const auto before = nlohmann::json::parse(car.run({"show", "brindle", "--on", "2026-04-05", "--json"}));
  CHECK_THAT(before["budget"]["cause_chance"].get<double>(), Catch::WithinAbs(0.5, 1e-12));
}

TEST_CASE("a name that the appraisal does not know is refused where it is noted, and stops no screen later",
          "[answers]") {
  Brindle car("names");
  car.buy();
  CHECK_THAT(
      car.run({"note", "brindle", "it was", "--cause", "head gasket leeks"}),
      Equals(
          "nonrunner: note: the appraisal of brindle of 2026-04-04 knows no cause \"head gasket leeks\", did "
          "you mean \"head gasket leaks\"?\n"));
  CHECK(car.status == 1);
  CHECK_THAT(
      car.run({"note", "brindle", "it was", "--trouble", "rot that does not show=perhaps"}),
      Equals("nonrunner: note: found \"perhaps\" for \"rot that does not show\", expected there or \"not "
             "there\"\n"));
  car.run({"note", "brindle", "not it", "--ruled-out", "1"});
  REQUIRE(car.status == 0);
  CHECK_THAT(
      car.run({"note", "brindle", "nor that", "--ruled-out", "2"}),
      Equals(
          "nonrunner: note: ruled out: head gasket leaks leaves no cause of the appraisal of brindle with a "
          "chance, expected one to be left; found before: ruled out: water pump or radiator (entry 3); if "
          "it is none of them say so: --cause \"something else\"\n"));
  // An events file is taken as it is: what the appraisal does not know is shown, and nothing stops.
  car.run({"post", car.file("old.toml",
                            "event = [{ do = \"finding\", date = 2026-04-08, vehicle = \"brindle\", text "
                            "= \"x\", cause = \"gasket\" }]\n")});
  REQUIRE(car.status == 0);
  CHECK_THAT(car.said({"show", "brindle"}), Contains("not in the appraisal: cause: gasket"));
  CHECK(car.status == 0);
}

TEST_CASE("something else closes every repair and says that its own is not known", "[answers]") {
  Brindle car("else");
  car.buy();
  car.run({"note", "brindle", "block cracked at the mount", "--cause", "something else"});
  REQUIRE(car.status == 0);
  CHECK(car.to_come() == "115.00");  // the two faults
  CHECK_THAT(car.said({"show", "brindle"}),
             Contains("without the repair: its cause is not in the appraisal"));
  // What would be refused as well is no way out.
  CHECK_THAT(
      car.said({"price", "brindle"}),
      Contains("which its appraisal does not know, expected one that does, and the cause noted by its name; "
               "keep one with: nonrunner appraise JOB.toml --keep"));
  CHECK(car.status != 0);
  car.run({"plan", "brindle", "second-hand block", "350", "--hours", "14"});
  REQUIRE(car.status == 0);
  CHECK(car.to_come() == "465.00");
}

TEST_CASE("a part under its line closes it, and closeness only asks", "[answers]") {
  Brindle car("links");
  car.buy();
  car.run({"note", "brindle", "weeping", "--cause", "1", "--date", "2026-04-06"});
  CHECK_THAT(car.said({"receipt", "brindle", "64", "water pump", "--purse", "cash", "--date", "2026-04-07"}),
             Contains("under no line of the budget; if it is line 3, water pump with gasket"));
  CHECK(car.to_come() == "233.00");
  car.run({"under", "brindle", "water pump with gasket", "--entry", "4"});
  CHECK(car.to_come() == "163.00");  // less 70
  CHECK(car.line("water pump with gasket")["state"] == "done");
  CHECK(car.line("water pump with gasket")["booked"] == "64.00");
  CHECK_THAT(
      car.said({"receipt", "brindle", "21.50", "stat and seal", "--for", "thermostat", "--purse", "cash"}),
      Contains(", line 4: thermostat"));
  CHECK(car.to_come() == "145.00");
  CHECK_THAT(
      car.run({"receipt", "brindle", "5", "clips", "--for", "thermostats", "--purse", "cash"}),
      Equals("nonrunner: receipt: found \"thermostats\", expected a line of the budget of brindle, by its "
             "number or its name, did you mean \"thermostat\"?; see: nonrunner show brindle --detail\n"));
  CHECK(car.status == 1);
  car.run({"receipt", "brindle", "40", "4 gal", "--kind", "consumable", "--for", "5", "--purse", "cash"});
  CHECK(car.to_come() == "115.00");  // one consumable brings all of it
  // Fees and faults by their amount: 95 planned, 89 paid.
  car.run({"receipt", "brindle", "89", "two tyres, fitted", "--for", "tyres at the wear bars", "--purse",
           "cash"});
  CHECK(car.to_come() == "20.00");
}

TEST_CASE("at a terminal an entry is asked about the line that it is close to", "[answers]") {
  Brindle car("asked");
  car.buy();
  car.run({"note", "brindle", "weeping", "--cause", "1", "--date", "2026-04-06"});
  const auto answered = [&](const std::string& amount, const std::string& typed) {
    std::istringstream in(typed);
    std::ostringstream out, err;
    nonrunner::commands::Terminal terminal{out, err, false, false, car.today, "2026-05-02T12:00:00Z",
                                           {},  &in};
    nonrunner::commands::run(
        {"receipt", "brindle", amount, "water pump", "--purse", "cash", "--book", car.book().string()},
        terminal);
    return err.str() + out.str();
  };
  CHECK_THAT(answered("64", "n\n"),
             Contains("\"water pump\": is that line 3, water pump with gasket? [Y/n]"));
  CHECK(car.to_come() == "233.00");
  CHECK_THAT(answered("40", "\n"), Contains("water pump, line 3: water pump with"));
  CHECK(car.to_come() == "163.00");
}

TEST_CASE("a paper's lines are said to be close to a line, with what to type", "[answers]") {
  Brindle car("paper");
  car.buy();
  const std::string paper =
      car.file("paper.toml",
               "date = 2026-04-07\nsupplier = \"Tessel Supply\"\npaid = \"cash\"\ntotal = "
               "82.00\nline = [{ what = \"water pump\", unit = 64.00, kind = \"part\", to = "
               "\"brindle\" }, { what = \"thermostat\", unit = 18.00, kind = \"part\", to = "
               "\"brindle\" }]\n");
  CHECK_THAT(
      car.said({"receipt", "--file", paper}),
      Contains("\"water pump\" stands under no line of the budget; if it is line 3, water pump with gasket: "
               "nonrunner under brindle \"water pump with gasket\" --paper-line 3.1") &&
          !Contains("thermostat\" stands"));
  CHECK(car.to_come() == "215.00");  // the thermostat has its own name
  car.run({"deposit", "brindle", "100", "--purse", "cash"});
  CHECK_THAT(car.said({"show", "brindle"}), Contains("a buyer's deposit is held: 100.00"));
}

TEST_CASE("what stands under no line is gone through one by one", "[answers]") {
  Brindle car("sort");
  car.buy();
  car.run({"note", "brindle", "weeping", "--cause", "1", "--date", "2026-04-06"});
  car.run({"receipt", "brindle", "64", "pump", "--purse", "cash", "--date", "2026-04-07"});
  car.run({"receipt", "brindle", "7", "sweets", "--purse", "cash", "--date", "2026-04-08"});
  car.run({"hours", "brindle", "3", "pump out", "--date", "2026-04-08"});
  CHECK_THAT(car.said({"under", "brindle", "--sort"}), Contains("2026-04-07 pump, 64.00") &&
                                                           Contains("own hours: pump out") &&
                                                           Contains("3 of brindle"));
  std::istringstream in("3\nn\n6\n");
  std::ostringstream out, err;
  nonrunner::commands::Terminal terminal{out, err, false, false, car.today, "2026-05-02T12:00:00Z", {}, &in};
  CHECK(nonrunner::commands::run({"under", "brindle", "--sort", "--book", car.book().string()}, terminal) ==
        0);
  CHECK_THAT(out.str(), Equals("2 of 3 placed\n"));
  CHECK(car.line("water pump with gasket")["booked"] == "64.00");
  CHECK_THAT(car.said({"under", "brindle", "--sort"}), Contains("sweets, 7.00 1 of brindle"));
}

TEST_CASE("a quick line's place passes on to a paper of one line", "[answers]") {
  Brindle car("passes");
  car.buy();
  car.run({"note", "brindle", "weeping", "--cause", "1", "--date", "2026-04-06"});
  car.run({"receipt", "brindle", "64", "pump", "--for", "3", "--purse", "cash", "--date", "2026-04-07"});
  CHECK(car.to_come() == "163.00");
  const std::string paper =
      car.file("paper.toml",
               "date = 2026-04-07\nsupplier = \"Tessel Supply\"\npaid = \"cash\"\ntotal = "
               "64.00\nline = [{ what = \"pump, new\", unit = 64.00, kind = \"part\", to = "
               "\"brindle\" }]\n");
  car.run({"receipt", "--file", paper, "--replaces", "4"});
  REQUIRE(car.status == 0);
  CHECK(car.to_come() == "163.00");
  CHECK(car.line("water pump with gasket")["booked"] == "64.00");
}

TEST_CASE("a later appraisal may call a line otherwise, and what was booked follows when that is said",
          "[answers]") {
  Brindle car("same");
  car.buy();
  car.run({"note", "brindle", "weeping", "--cause", "1", "--date", "2026-04-06"});
  car.run({"receipt", "brindle", "64", "water pump with gasket", "--purse", "cash", "--date", "2026-04-07"});
  std::string later = brindle_job;
  for (const std::string name : {"water pump with gasket", "water pump or radiator"})
    for (auto at = later.find(name); at != std::string::npos; at = later.find(name))
      later.replace(at, name.size(), name == "water pump or radiator" ? "pump or radiator" : "coolant pump");
  CHECK_THAT(car.said({"appraise", car.file("later.toml", later), "--keep", "--date", "2026-04-08"}),
             Contains("no longer in the estimate: water pump with gasket, 64.00 booked"));
  CHECK_THAT(car.said({"show", "brindle"}), Contains("not in the appraisal: cause: water pump or radiator"));
  car.run({"note", "brindle", "renamed", "--same", "water pump with gasket=coolant pump", "--same",
           "water pump or radiator=pump or radiator"});
  REQUIRE(car.status == 0);
  CHECK(car.shown()["budget"]["cause"] == "pump or radiator");
  CHECK(car.line("coolant pump")["booked"] == "64.00");
  CHECK(car.to_come() == "163.00");
  CHECK(car.line("thermostat")["number"] == 4);  // a number is never given twice
}

TEST_CASE("on the day of the advert of a finished car the floor is what was put in plus the costs of selling",
          "[answers]") {
  Brindle car("finished");
  car.buy();
  car.run({"note", "brindle", "weeping", "--cause", "1"});
  car.run({"receipt", "brindle", "64", "water pump", "--for", "3", "--purse", "cash"});
  CHECK(car.break_even() == "1329.00");  // 900 + 157 + 64 + 163 + 45
  CHECK_THAT(car.said({"done", "brindle"}),
             Contains("done: this makes brindle ready, and closes 4 thermostat (18.00); 5 coolant (30.00)"));
  CHECK(car.status == 1);
  CHECK_THAT(
      car.said({"advertise", "brindle", "2650", "--still-to-do", "headlamps clouded"}),
      Contains("it is ready with that, and nothing more of these is to come: 4 thermostat (18.00); 5 coolant "
               "(30.00)"));
  CHECK(car.to_come() == "20.00");
  car.run({"done", "brindle", "headlamps clouded", "--not-needed"});
  REQUIRE(car.status == 0);
  CHECK(car.to_come() == "0.00");
  CHECK(car.break_even() == "1166.00");  // 900 + 157 + 64 + 45
  CHECK(nlohmann::json::parse(car.run({"price", "brindle", "--json"}))["floor"] == "1166.00");
  CHECK_THAT(car.said({"show", "brindle"}),
             Contains("left on the car, and off its price: headlamps clouded"));
  car.run({"done", "brindle", "thermostat", "--reopen"});
  CHECK(car.to_come() == "18.00");
  CHECK_THAT(
      car.run({"done", "brindle", "tyres at the wear bars", "--not-needed"}),
      Equals("nonrunner: done: \"tyres at the wear bars\" has to be put right before brindle is sold, by its "
             "appraisal; it stays on the car all the same: --left\n"));
}

TEST_CASE("fixes of a car in the book leaves out the faults that are done or left", "[answers]") {
  Brindle car("fixes");
  car.buy();
  const auto faults = [&] {
    return nlohmann::json::parse(car.run({"fixes", "brindle", "--json"}))["faults"].size();
  };
  CHECK(faults() == 2);
  car.run({"receipt", "brindle", "89", "tyres", "--for", "tyres at the wear bars", "--purse", "cash"});
  CHECK(faults() == 1);
}

TEST_CASE("a chance below one is shown as a chance, and a correction that failed makes the next one certain",
          "[answers]") {
  Brindle car("chance");
  car.buy();
  car.run({"note", "brindle", "emulsion", "--cause", "head gasket leaks"});
  CHECK_THAT(car.said({"show", "brindle", "--detail"}),
             Contains("15 %: engine, complete") && Contains("if so 566.00"));
  CHECK(car.line("engine, complete")["if_needed"] == "566.00");
  CHECK(car.to_come() == "449.90");
  car.run({"receipt", "brindle", "140", "head gasket set", "--purse", "cash"});
  car.run({"receipt", "brindle", "110", "skim", "--kind", "sublet", "--for",
           "pressure-test and skim the head", "--purse", "cash"});
  CHECK(car.to_come() == "199.90");
  car.run({"note", "brindle", "still bubbling", "--failed", "head off"});
  REQUIRE(car.status == 0);
  CHECK(car.to_come() == "681.00");  // the engine for certain, and the faults
  car.run({"note", "brindle", "no, it holds", "--cured", "head off"});
  CHECK(car.to_come() == "115.00");
}

TEST_CASE("a correction that was made and failed speaks against the causes that it would have cured",
          "[answers]") {
  Brindle car("failed");
  car.buy();
  const auto chance = [&](std::size_t cause) {
    return nonrunner::answers::known_of(nonrunner::book::Book::open(car.book()), "brindle")->chance(cause);
  };
  CHECK_THAT(chance(1), Catch::WithinAbs(0.5, 1e-12));
  car.run({"note", "brindle", "still hot", "--failed", "head off"});
  // Bayes by hand: even odds before; it cures 85 of 100 heads and no pump, so 0.5 * 0.15 against 0.5.
  CHECK_THAT(chance(1), Catch::WithinAbs(0.075 / 0.575, 1e-12));
  // The pump always works where it is the cause, so it was not.
  car.run({"note", "brindle", "and after the pump", "--failed", "pump and thermostat"});
  CHECK_THAT(chance(1), Catch::WithinAbs(1, 1e-12));
  // Where no cause would be left, one that was said to work always did not.
  car.run({"note", "brindle", "the engine too", "--failed", "engine from the yard"});
  CHECK_THAT(chance(0), Catch::WithinAbs(0.5, 1e-12));
}

TEST_CASE("hours say something of the pace only where they stand under an operation that was estimated",
          "[answers]") {
  Brindle car("pace");
  car.buy();
  car.run({"note", "brindle", "weeping", "--cause", "1"});
  car.run({"hours", "brindle", "3.6", "strip and change the pump"});
  car.run({"hours", "brindle", "5", "clean"});
  car.run({"sell", "brindle", "2600", "--purse", "cash"});
  REQUIRE(car.status == 0);
  car.today = Day(2026, 5, 3);
  const auto learnt = nlohmann::json::parse(car.run({"learn", "--json"}));
  CHECK_THAT(learnt["pace"]["own"].get<double>(), Catch::WithinAbs(1.2, 1e-12));  // 3.6 of 3
  CHECK_THAT(car.said({"learn", "--detail"}),
             Contains("clean: not estimated") && Contains("fill, bleed, road test: "
                                                          "no hours"));
  // Washing is moved to an operation: the pace follows.
  car.run({"under", "brindle", "headlamps clouded", "--operation", "clean"});
  const auto moved = nlohmann::json::parse(car.run({"learn", "--json"}));
  CHECK_THAT(moved["pace"]["own"].get<double>(), Catch::WithinAbs(8.6 / 4, 1e-12));
}

TEST_CASE("a low pace is not believed from fewer than ten operations", "[answers]") {
  Brindle car("slip");
  car.buy();
  car.run({"note", "brindle", "weeping", "--cause", "1"});
  car.run({"hours", "brindle", "0.02", "strip and change the pump"});
  car.run({"sell", "brindle", "2600", "--purse", "cash"});
  car.today = Day(2026, 5, 3);
  const auto learnt = nlohmann::json::parse(car.run({"learn", "--json"}));
  CHECK(learnt["pace"]["points"][0].get<double>() >= 0.25);
}

TEST_CASE("parts of a car in pieces that went to another car or to the shelf are expected no more",
          "[answers]") {
  Brindle car("pieces");
  car.run({"buy", "tolly", "700", "--purse", "cash", "--new", "--date", "2026-04-05"});
  car.buy();
  car.run({"part-out", "tolly", "1250", "--date", "2026-04-10"});
  car.run({"recover", "tolly", "320", "doors", "--purse", "cash"});
  car.run({"transfer", "tolly", "brindle", "35", "alternator"});
  REQUIRE(car.status == 0);
  car.run({"shelve", "wheel", "4", "--from", "tolly", "--what", "wheels", "--amount", "80"});
  REQUIRE(car.status == 0);
  const auto json = nlohmann::json::parse(car.run({"show", "tolly", "--json"}));
  CHECK(json["still_brings"] == "815.00");  // 1,250 - 320 - 35 - 80
  CHECK_THAT(
      car.run({"advertise", "tolly", "500"}),
      Equals(
          "nonrunner: advertise: tolly is in pieces since 2026-04-10, expected a car that is sold whole\n"));
}

TEST_CASE("what was said of the budget goes through an export and comes back the same", "[answers]") {
  Brindle car("export");
  car.run({"appraise", car.job_file, "--seen", "bubbles in the header tank=none", "--keep", "--date",
           "2026-04-02"});
  car.buy();
  car.run({"receipt", "brindle", "64", "water pump", "--for", "3", "--more", "--purse", "cash"});
  car.run({"hours", "brindle", "3.5", "strip", "--for", "strip and change the pump", "--done"});
  car.run({"plan", "brindle", "heater matrix", "88", "--qty", "2"});
  // Two of one day: the later counts, here and there.
  std::string dearer = brindle_job;
  dearer.replace(dearer.find("new = 18"), 8, "new = 28");
  car.run({"appraise", car.file("dearer.toml", dearer), "--keep", "--date", "2026-04-04"});
  car.run({"done", "brindle", "headlamps clouded", "--not-needed"});
  car.run({"advertise", "brindle", "2500", "--still-to-do", "thermostat"});
  REQUIRE(car.status == 0);
  car.run({"sell", "brindle", "2500", "--purse", "cash"});
  REQUIRE(car.status == 0);
  car.today = Day(2026, 5, 3);
  const std::string before = car.run({"show", "brindle", "--json"});
  // What the appraisals foretold with the tests of before the purchase, which a file alone does not say.
  const std::string learnt = car.run({"learn", "--json"});
  const std::string folder = car.file("x", "") + "-out";
  car.run({"export", folder, "--events"});
  REQUIRE(car.status == 0);
  std::filesystem::remove(car.book());
  car.run({"restore", folder});
  REQUIRE(car.status == 0);
  CHECK(car.run({"show", "brindle", "--json"}) == before);
  CHECK(car.run({"learn", "--json"}) == learnt);
}

TEST_CASE("several cars are set against each other with what was seen and found on each", "[answers]") {
  Brindle car("choose");
  const auto worth = [&](const std::string& which) {
    return nlohmann::json::parse(car.run({"choose", which, "--json"}));
  };
  std::string seen = brindle_job;
  seen.insert(seen.find("outcomes = [\"none\", \"steady\"]"), "seen = \"steady\"\n");
  const auto in_the_file = worth(car.file("seen.toml", seen));
  REQUIRE(car.status == 0);
  car.run({"appraise", car.job_file, "--keep", "--date", "2026-04-02"});
  CHECK(worth("brindle") != in_the_file);
  car.run({"appraise", "brindle", "--seen", "1=2", "--keep", "--date", "2026-04-03"});
  REQUIRE(car.status == 0);
  CHECK(worth("brindle") == in_the_file);
}

TEST_CASE(
    "what an appraisal came to is taken in as an export wrote it, however long, and nothing else in its "
    "place",
    "[answers]") {
  Brindle car("came-to");
  const std::string figures = "{ \"why\": \"" + std::string(std::size_t{1} << 21, 'x') + "\" }";
  car.file("came.json", figures);
  car.file("none.json", "");
  car.file("list.json", "[1]");
  const auto events = [&](const std::string& came_to) {
    return car.file("events.toml",
                    "event = [{ do = \"appraisal\", date = 2026-04-02, vehicle = \"brindle\", job = \"" +
                        std::filesystem::path(car.job_file).filename().string() + "\", came_to = \"" +
                        came_to + "\" }]\n");
  };
  for (const char* wrong : {"none.json", "list.json"})
    CHECK_THAT(car.run({"post", events(wrong)}),
               Contains(std::string(wrong) + ": found no JSON object, expected what the"));
  car.run({"post", events("came.json")});
  REQUIRE(car.status == 0);
  const std::string folder = car.file("x", "") + "-out";
  CHECK_THAT(car.run({"export", folder, "--events"}), Contains("entered again and compared"));
}

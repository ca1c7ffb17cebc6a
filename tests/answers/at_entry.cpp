// What is asked and said of the budget where something is entered: the lines of a paper, a later appraisal, taking
// back; and what a ready car's price bears. Amounts are worked out by hand beside each check.
#include "answers/brindle.h"

using Catch::Matchers::Contains;
using Catch::Matchers::Equals;
using nonrunner::answers::Brindle;
using nonrunner::answers::brindle_job;

namespace {

std::string paper(const std::string& total, const std::string& lines, const std::string& day = "2026-04-25") {
  return "date = " + day + "\nsupplier = \"Tessel Supply\"\npaid = \"cash\"\ntotal = " + total +
         "\nline = [" + lines + "]\n";
}

// A file's text with every `before` replaced.
std::string with(std::string text, const std::string& before, const std::string& now) {
  for (auto at = text.find(before); at != std::string::npos; at = text.find(before, at + now.size()))
    text.replace(at, before.size(), now);
  return text;
}

}  // namespace

TEST_CASE("a fee or work sent out that follows a line of the budget on its paper is offered that line",
          "[answers]") {
  Brindle car("follows");
  car.buy();
  const std::string tyres =
      R"({ what = "part-worn pair, fitted", amount = 60.00, kind = "part", to = "brindle" },
         { what = "fitting", amount = 20.00, kind = "sublet", to = "brindle" },
         { what = "sweets", amount = 1.00, kind = "consumable", to = "brindle" })";
  const std::string file = car.file("tyres.toml", paper("81.00", tyres));
  CHECK_THAT(
      car.said({"receipt", "--file", file}),
      Contains(
          "\"fitting\" stands under no line of the budget; if it goes with \"part-worn pair, fitted\", under "
          "line 14, tyres at the wear bars: nonrunner under brindle \"tyres at the wear bars\" --paper-line "
          "3.2") &&
          !Contains("sweets\" stands"));
  CHECK(car.line("tyres at the wear bars")["booked"] == "60.00");
  const std::string again = car.file("again.toml", paper("81.00", tyres, "2026-04-29"));
  CHECK_THAT(
      car.answered({"receipt", "--file", again, "--again"}, "\n"),
      Contains(
          "\"fitting\" goes with \"part-worn pair, fitted\": does it stand under line 14, tyres at the wear "
          "bars? [Y/n]"));
  CHECK(car.line("tyres at the wear bars")["booked"] == "140.00");
}

TEST_CASE("a fee on the purchase's day that goes with nothing stays a fee", "[answers]") {
  Brindle car("fee");
  car.buy();
  const std::string lines =
      R"({ what = "part-worn pair, fitted", amount = 60.00, kind = "part", to = "brindle" },
                               { what = "yard entrance", amount = 3.00, kind = "fee", to = "brindle" })";
  const std::string file = car.file("fee.toml", paper("63.00", lines, "2026-04-06"));
  CHECK_THAT(car.answered({"receipt", "--file", file}, "n\n"), Contains("\"yard entrance\" goes with"));
  CHECK(car.line("fees")["booked"] == "160.00");
}

TEST_CASE("a paper of several lines asks about the line under which its quick line stood", "[answers]") {
  Brindle car("stood");
  car.buy();
  const std::string before = car.to_come();
  car.run({"receipt", "brindle", "43.20", "assembly", "--purse", "cash", "--date", "2026-04-07"});
  car.run({"under", "brindle", "water pump with gasket", "--entry", "3"});
  const std::string with_quick_line = car.to_come();
  CHECK(with_quick_line != before);
  const std::string file = car.file(
      "pump.toml", paper("43.20", R"({ what = "water pump", amount = 40.00, kind = "part", to = "brindle" },
                                 { what = "strap", amount = 3.20, kind = "consumable", to = "brindle" })",
                         "2026-04-07"));
  CHECK_THAT(
      car.said({"receipt", "--file", file, "--replaces", "3"}),
      Equals("entry 5: 43.20 from cash on 2 lines from Tessel Supply \"water pump\" stands under no line of "
             "the budget; if it is line 3, water pump with gasket: nonrunner under brindle \"water pump with "
             "gasket\" --paper-line 5.1 "));
  CHECK(car.to_come() == before);
  car.run({"undo"});
  CHECK(car.to_come() == with_quick_line);
  CHECK_THAT(
      car.answered({"receipt", "--file", file, "--replaces", "7"}, "\n"),
      Equals("\"water pump\": is that line 3, water pump with gasket? [Y/n] entry 9: 43.20 from cash on 2 "
             "lines from Tessel Supply "));
  CHECK(car.line("water pump with gasket")["booked"] == "40.00");
  CHECK(car.to_come() == with_quick_line);
}

TEST_CASE("a paper of one line stands where its quick line stood by its own name", "[answers]") {
  Brindle car("passes-on");
  car.buy();
  car.run({"receipt", "brindle", "18", "thermostat", "--purse", "cash", "--date", "2026-04-07"});
  const std::string with_quick_line = car.to_come();
  const std::string file = car.file(
      "one.toml",
      paper("18.00", R"({ what = "thermostat 88 C", amount = 18.00, kind = "part", to = "brindle" })",
            "2026-04-07"));
  CHECK_THAT(car.answered({"receipt", "--file", file, "--replaces", "3"}, ""),
             Equals("entry 5: 18.00 from cash for brindle, thermostat 88 C "));
  CHECK(car.line("thermostat")["booked"] == "18.00");
  CHECK(car.to_come() == with_quick_line);
}

TEST_CASE("the place of a line that is typed whole is asked about once, and not where it was said",
          "[answers]") {
  Brindle car("typed-whole");
  car.buy();
  const nonrunner::commands::Words typed = {"receipt",       "brindle", "40",   "water pump", "--supplier",
                                            "Tessel Supply", "--purse", "cash", "--whole"};
  nonrunner::commands::Words with_place = typed;
  with_place.insert(with_place.end(), {"--for", "water pump with gasket"});
  const std::string placed = "40.00 from cash for brindle, water pump, line 3: water pump with gasket ";
  CHECK_THAT(car.said(with_place), Equals("entry 3: " + placed));
  car.run({"undo"});
  CHECK_THAT(car.answered(with_place, ""), Equals("entry 5: " + placed));
  car.run({"undo"});
  const std::string question = "\"water pump\": is that line 3, water pump with gasket? [Y/n] ";
  CHECK_THAT(car.answered(typed, "y\nn\n"), Equals(question + "entry 7: " + placed));
  CHECK(car.line("water pump with gasket")["booked"] == "40.00");
  car.run({"undo"});
  CHECK_THAT(car.answered(typed, "n\ny\n"),
             Equals(question + "entry 9: 40.00 from cash for brindle, water pump "));
  car.run({"undo"});
  CHECK_THAT(car.said(typed),
             Equals("entry 11: 40.00 from cash for brindle, water pump under no line of the budget; if it is "
                    "line 3, water pump with gasket: nonrunner under brindle \"water pump with gasket\" "
                    "--entry 11 "));
}

TEST_CASE("a heading written nearly as one of the budget is remarked on, one of one's own is not",
          "[answers]") {
  Brindle car("slip");
  car.buy();
  car.run({"receipt", "brindle", "18", "housing", "--purse", "cash", "--date", "2026-04-07"});
  CHECK_THAT(
      car.said({"under", "brindle", "thermostt", "--entry", "3"}),
      Equals("it stands under \"thermostt\" now \"thermostt\" is a new heading; if it is line 4, thermostat: "
             "nonrunner under brindle \"thermostat\" --entry 3 "));
  CHECK_THAT(car.said({"under", "brindle", "discovery", "--entry", "3"}),
             Equals("it stands under \"discovery\" now "));
  CHECK_THAT(car.said({"under", "brindle", "thermostat", "--entry", "3"}),
             Equals("it stands under \"thermostat\" now "));
}

TEST_CASE("more pieces than are planned are said, with what puts the other on the shelf", "[answers]") {
  Brindle car("pair");
  car.buy();
  const std::string file = car.file(
      "pair.toml",
      paper(
          "36.00",
          R"({ id = "stats", what = "thermostat", qty = 2, unit = 18.00, kind = "part", to = "brindle" })"));
  CHECK_THAT(
      car.said({"receipt", "--file", file}),
      Contains(
          "thermostat: 2 for 1 planned on brindle; shelve what is over? nonrunner shelve \"thermostat\" 1 "
          "--line stats"));
  CHECK_THAT(car.said({"shelve", "thermostat", "1", "--line", "stats"}),
             Contains("1 of \"thermostat\" to the shelf"));
  CHECK(car.line("thermostat")["booked"] == "18.00");
}

TEST_CASE("a pair on a paper where two pieces are planned may be all of them", "[answers]") {
  Brindle car("set");
  car.job_file = car.file("two.toml", with(brindle_job, R"("thermostat", qty = 1, new = 18)",
                                           R"("engine mounts", qty = 2, new = 18)"));
  car.buy();
  const std::string line =
      R"({ what = "pair of mounts", unit = 30.00, kind = "part", to = "brindle", for = "engine mounts" })";
  const std::string file = car.file("mounts.toml", paper("30.00", line));
  CHECK_THAT(
      car.said({"receipt", "--file", file}),
      Contains("engine mounts: 1 for 2 planned on brindle; if these are all of them: nonrunner done brindle "
               "\"engine mounts\""));
  CHECK(car.line("engine mounts")["state"] == "open");
  car.run({"undo"});
  CHECK_THAT(
      car.answered({"receipt", "--file", file}, "\n"),
      Contains(
          "\"pair of mounts\": 1 of 2 planned for brindle, engine mounts; are these all of them? [Y/n]"));
  CHECK(car.line("engine mounts")["state"] == "done");
}

TEST_CASE("a column of a list says under which line of the budget a row stands", "[answers]") {
  Brindle car("column");
  car.buy();
  const auto list = [&](const std::string& to, const std::string& under) {
    return car.file(
        "list.csv",
        "date,supplier,number,purse,what,amount,kind,to,for\n2026-04-25,Tessel Supply,1,cash,pump "
        "assembly,64.00,part," +
            to + "," + under + "\n");
  };
  CHECK_THAT(
      car.run({"receipt", "--csv", list("brindle", "3")}),
      Equals(
          "nonrunner: list.csv:2: the column \"for\": found the number 3, expected the name of a line of the "
          "budget, or none; numbers are for one car's screens\n"));
  CHECK_THAT(
      car.run({"receipt", "--csv", list("tools", "none")}),
      Equals(
          "nonrunner: list.csv:2: the column \"for\": found \"none\" on a line for no car, expected a car in "
          "the column \"to\", or nothing\n"));
  car.run({"receipt", "--csv", list("brindle", "water pump with gasket")});
  REQUIRE(car.status == 0);
  CHECK(car.line("water pump with gasket")["booked"] == "64.00");
}

TEST_CASE("an appraisal that is kept asks whether a line that is gone is one of its own", "[answers]") {
  Brindle car("renames");
  car.buy();
  car.run({"receipt", "brindle", "64", "water pump with gasket", "--purse", "cash", "--date", "2026-04-07"});
  const std::string later =
      car.file("later.toml", with(brindle_job, "water pump with gasket", "coolant pump, pump"));
  const std::string close =
      car.file("close.toml", with(brindle_job, "water pump with gasket", "water pump, new"));
  CHECK_THAT(
      car.said({"appraise", later, "--keep", "--date", "2026-04-08"}),
      Contains("no longer in the estimate: water pump with gasket, 64.00 booked; if it is another line now: "
               "nonrunner note brindle \"renamed\" --same \"water pump with gasket=NEW\""));
  CHECK_THAT(
      car.answered({"appraise", close, "--keep", "--date", "2026-04-09"}, "y\n"),
      Contains(
          "\"water pump with gasket\" of brindle is no longer in the estimate; is \"water pump, new\" the "
          "same? [y/n]"));
  CHECK(car.line("water pump, new")["booked"] == "64.00");
}

TEST_CASE("what a line of an earlier appraisal is now may be said beside the appraisal", "[answers]") {
  Brindle car("renamed");
  car.buy();
  car.run({"note", "brindle", "weeping", "--cause", "1", "--date", "2026-04-06"});
  car.run({"hours", "brindle", "2", "strip and change the pump", "--date", "2026-04-07"});
  const std::string later =
      car.file("later.toml", with(brindle_job, "strip and change the pump", "pump out and in"));
  CHECK_THAT(car.said({"appraise", later, "--same", "strip and change the pump=pump out and in"}),
             Contains("found --same without --keep, expected both"));
  car.run({"appraise", later, "--keep", "--date", "2026-04-08", "--same",
           "strip and change the pump=pump out and in"});
  REQUIRE(car.status == 0);
  bool found = false;
  const nlohmann::json shown = car.shown();
  for (const auto& work : shown["budget"]["hours"])
    if (work["operation"] == "pump out and in") {
      found = true;
      CHECK(work["booked"].get<double>() == 2);
    }
  CHECK(found);
}

TEST_CASE("a sale is asked about at a terminal, and what else goes back with it is named", "[answers]") {
  Brindle car("asked-void");
  car.buy();
  car.run({"sell", "brindle", "2000", "--cost", "advert=30", "--purse", "cash", "--date", "2026-04-20"});
  REQUIRE(car.status == 0);
  CHECK_THAT(
      car.said({"void", "3", "--why", "typed twice"}),
      Equals(
          "nonrunner: void: entry 3 is a sale: did it stand until it was taken back, or was it typed wrong? "
          "say --later DAY or --never-was "));
  const std::string left = car.answered({"void", "3", "--why", "typed twice"}, "w\nn\n");
  CHECK_THAT(left, Contains("it stood until today") &&
                       Contains("entry 3 takes back with it 30.00 for advert from cash; "
                                "shall all of it go? [y/n]") &&
                       Contains("void: left as it is; nothing recorded"));
  CHECK(car.status == 1);
  CHECK_THAT(car.answered({"void", "3", "--why", "the cheque bounced"}, "s\n"),
             Contains("entry 3 (sell of 2026-04-20: brindle, cash) is taken back, from 2026-05-02 on"));
}

TEST_CASE("an advert that made a car ready says that its lines open again, at a terminal", "[answers]") {
  Brindle car("void-advert");
  car.buy();
  car.run({"advertise", "brindle", "2650", "--date", "2026-04-20"});
  CHECK(car.to_come() == "0.00");
  CHECK_THAT(
      car.answered({"void", "3", "--why", "too early"}, "y\n"),
      Contains("entry 3 takes back with it that the car is ready, so that the lines that it closed are open "
               "again; shall all of it go? [y/n]"));
  CHECK(car.to_come() != "0.00");
  // An entry that stands alone is asked about by nobody.
  car.run({"receipt", "brindle", "5", "clip", "--purse", "cash"});
  CHECK_THAT(car.answered({"void", "5", "--why", "typed twice"}, ""),
             Contains("entry 5 (receipt of 2026-05-02: clip) is taken back, into cash"));
}

TEST_CASE("a ready car's price bears the marks of what was made and no others", "[answers]") {
  const auto price_of = [](Brindle& car) {
    return nlohmann::json::parse(car.run({"go-on", "brindle", "--cause", "head gasket leaks", "--json"}));
  };
  const std::string marked = with(brindle_job, "works = 0.85\n", "works = 0.85\ntakes_off = 200\n");
  Brindle made("marks-made");
  made.job_file = made.file("marked.toml", marked);
  made.buy();
  made.run({"receipt", "brindle", "140", "head gasket set", "--purse", "cash", "--date", "2026-04-10"});
  made.run({"done", "brindle", "--ready"});
  Brindle none("marks-none");
  none.job_file = none.file("marked.toml", marked);
  none.buy();
  none.run({"done", "brindle", "--ready"});
  const auto brings = [](const nlohmann::json& answer) {
    for (const auto& course : answer["courses"])
      if (course["name"] == "put right") return std::stod(course["brings"].get<std::string>());
    return 0.0;
  };
  // Nothing was booked on taking the head off: it has left no mark. 3,000 as sound, and both faults put right.
  CHECK_THAT(brings(price_of(none)), Catch::WithinAbs(3000, 0.005));
  CHECK_THAT(brings(price_of(made)), Catch::WithinAbs(2800, 0.005));
}

TEST_CASE("fixes of a car that is not put right says so before anything else", "[answers]") {
  Brindle car("no-fixes");
  car.buy();
  CHECK_THAT(car.said({"fixes", "brindle"}), !Contains("not put right"));
  car.run({"part-out", "brindle", "900", "--date", "2026-04-20"});
  CHECK_THAT(
      car.said({"fixes", "brindle"}),
      Contains(
          "brindle is not put right, since it is in pieces since 2026-04-20; these fixes would pay only on a "
          "car that is sold running"));
  Brindle worse("no-correction");
  worse.job_file = worse.file("worse.toml", with(brindle_job, "found = 400\ncorrection = \"head off\"",
                                                 "found = 400\nscrap = { value = 300, costs = 0 }"));
  worse.buy();
  worse.run({"note", "brindle", "wet plugs", "--cause", "head gasket leaks"});
  CHECK_THAT(worse.said({"fixes", "brindle"}),
             Contains("brindle is not put right, since the appraisal has no correction for it"));
}

TEST_CASE("an hour that is set again counts from its day, and a car sold before keeps its profit",
          "[answers]") {
  Brindle car("hour");
  const auto profit = [&] { return car.shown()["profit"].get<std::string>(); };
  car.run({"set", "hour", "20"});
  car.buy();
  car.run({"hours", "brindle", "10", "look", "--date", "2026-04-06"});
  car.run({"sell", "brindle", "2000", "--purse", "cash", "--date", "2026-04-20"});
  // 2,000 less 900 and 157, and 10 hours at 20.
  CHECK(profit() == "743.00");
  car.run({"set", "hour", "30"});
  CHECK(profit() == "743.00");
  car.run({"set", "hour", "30", "--date", "2026-04-20"});
  CHECK(profit() == "643.00");
  CHECK_THAT(car.run({"set", "hour", "30", "--date", "2026-06-01"}),
             Contains("set hour: the day 2026-06-01 has not come yet, expected 2026-05-02 at the latest"));
  CHECK_THAT(car.run({"set", "dealer-limit", "5", "--date", "2026-04-01"}),
             Contains("set dealer-limit: found a day, expected one only with the hour"));
  CHECK_THAT(car.run({"set"}), Contains("hour.2026-04-20  30.00"));
}

TEST_CASE("a paper over quick lines of other days says from which day it counts", "[answers]") {
  Brindle car("two-days");
  car.buy();
  for (const auto& [amount, day] : {std::pair("20", "2026-04-23"), std::pair("30", "2026-04-24")})
    car.run({"receipt", "brindle", amount, "clip", "--purse", "cash", "--date", day});
  const std::string file = car.file(
      "clips.toml", paper("50.00", R"({ what = "clip", amount = 50.00, kind = "part", to = "brindle" })"));
  CHECK_THAT(
      car.said({"receipt", "--file", file, "--replaces", "3,4"}),
      Contains("receipt: dated 2026-04-25, it counts from 2026-04-23, the first day of the quick lines "
               "whose place it takes"));
  REQUIRE(car.status == 0);
  car.run({"receipt", "brindle", "7", "strap", "--purse", "cash", "--date", "2026-04-26"});
  const std::string strap = car.file(
      "strap.toml",
      paper("7.00", R"({ what = "strap", amount = 7.00, kind = "part", to = "brindle" })", "2026-04-27"));
  CHECK_THAT(car.said({"receipt", "--file", strap, "--replaces", "8"}),
             Contains("it counts from 2026-04-26, the day of the quick line whose place it takes"));
}

TEST_CASE("hours of a helper say that the line of the work has no money for them", "[answers]") {
  Brindle car("paid");
  car.buy();
  CHECK_THAT(
      car.said({"hours", "brindle", "2", "strip and change the pump", "--paid", "30", "--purse", "cash"}),
      Contains("strip and change the pump, its money under no line: the estimate has none for it"));
  CHECK_THAT(car.said({"hours", "brindle", "2", "strip and change the pump"}), !Contains("its money"));
}

TEST_CASE("a line that is planned again in other letters is the line that is there", "[answers]") {
  Brindle car("letters");
  car.buy();
  CHECK_THAT(car.said({"plan", "brindle", "70", "Water Pump with gasket"}),
             Contains("planned for brindle: water pump with gasket, 70.00"));
  car.run({"plan", "brindle", "88", "heater matrix"});
  CHECK_THAT(car.said({"plan", "brindle", "90", "Heater Matrix"}), Contains("heater matrix, 90.00"));
  CHECK(car.line("heater matrix")["to_come"] == "90.00");
}

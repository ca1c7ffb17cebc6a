#include <catch2/catch.hpp>

#include "appraisal/jobs.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;

TEST_CASE("the small job that the mistakes below are made in is right", "[appraisal][read]") {
  CHECK(refusal_of(small_job) == "accepted");
  const Job job = job_of(small_job);
  CHECK(job.corrections[0].operations.size() == 2);
  CHECK(job.corrections[0].operations[0].hours == Amount{5, 7, 9});
  CHECK(job.causes[1].correction == std::nullopt);
  CHECK(job.tests[0].given[1][1] == 0.95);
}

TEST_CASE("every mistake in a job file is named with its line, what was found and what was expected",
          "[appraisal][read]") {
  struct Mistake {
    std::string replaced, by, says;
  };
  const std::vector<Mistake> mistakes = {
      {"wait_days", "walt_days",
       R"(pip.toml:10: unknown key "walt_days" in [shop], did you mean "wait_days"?)"},
      {"[scrap]", "[scarp]", R"(pip.toml:37: unknown key "scarp" in the file, did you mean "scrap"?)"},
      {"tag = \"pip\"", "tag = \"Pip!\"",
       R"(pip.toml:2: "tag" in [vehicle] is "Pip!", expected up to 24 of a-z, 0-9 and '-')"},
      {"tag = \"pip\"", "tag = \"abcdefghijklmnopqrstuvwxy\"",
       R"(pip.toml:2: "tag" in [vehicle] is "abcdefghijklmnopqrstuvwxy", expected up to 24 of a-z, 0-9 and '-')"},
      {"tag = \"pip\"", "tag = \"pip\"\nvin = \"1G4AH59H35G118341\"",
       R"(pip.toml:3: "vin" in [vehicle]: found the check digit 3 (character 9), expected 4 for the others; copy the number again, or leave it out if the car was not made for North America)"},
      {"tag = \"pip\"", "tag = \"pip\"\npaper = \"tidy\"",
       R"(pip.toml:3: "paper" in [vehicle] is "tidy", expected "clean", "lien", "salvage", "rebuilt" or "lost")"},
      {"tag = \"pip\"", "tag = \"pip\"\npaper = \"salvage\"",
       R"(pip.toml:18: [value] has no "branded", expected the share of the sound value that a car with such a paper keeps, such as 0.7)"},
      {"asking = 900", "asking = -900",
       R"(pip.toml:4: "asking" in [deal] is -900, expected an amount of 0 or more in USD with at most 2 decimals)"},
      {"asking = 900", "asking = 1000000000001",
       R"(pip.toml:4: "asking" in [deal] is 1000000000001, expected at most 1,000,000,000,000)"},
      {"found = 500", "found = [500, 600, 2e12]",
       R"(pip.toml:25: "found" in [[cause]] "gasket" is [500, 600, 2000000000000], expected at most 1,000,000,000,000)"},
      {"hours_per_week = 14", "hours_per_week = 1e13",
       R"(pip.toml:9: "hours_per_week" in [shop] is 10000000000000, expected at most 1,000,000,000,000)"},
      {"asking = 900", "asking = 900.005",
       R"(pip.toml:4: "asking" in [deal] is 900.005, expected an amount of 0 or more in USD with at most 2 decimals)"},
      {"asking = 900", "asking = \"900\"",
       R"(pip.toml:4: "asking" in [deal] is "900", expected an amount of 0 or more in USD with at most 2 decimals)"},
      {"asking = 900\n", "",
       R"(pip.toml:3: [deal] has no "asking", expected an amount of 0 or more in USD with at most 2 decimals)"},
      {"fees = 100", "rate = 6.5",
       R"(pip.toml:5: "rate" in [deal] is 6.5, expected a fraction of 0 or more and below 1, such as 0.065 for 6.5 %)"},
      {"pace = 1", "pace = 0",
       R"(pip.toml:8: "pace" in [shop] is 0, expected real hours / estimated hours above 0)"},
      {"pace = 1", "pace = [1.6, 1.1, 0.9]",
       R"(pip.toml:8: "pace" in [shop] is [1.6, 1.1, 0.9], expected three points in rising order, low <= likely <= high)"},
      {"pace = 1", "pace = [1, 2]",
       R"(pip.toml:8: "pace" in [shop] is [1, 2], expected a number of real hours for an estimated one, 0 or more, or three points [low, likely, high] of such)"},
      {"hours_per_week = 14", "hours_per_week = 0",
       R"(pip.toml:9: "hours_per_week" in [shop] is 0, expected a number of hours above 0)"},
      {"hours_per_week = 14", "hours_per_week = 200",
       R"(pip.toml:9: "hours_per_week" in [shop] is 200, expected at most the 168 hours of a week)"},
      {"profit = 300", "profit = -1",
       R"(pip.toml:16: "profit" in [aims] is -1, expected an amount of 0 or more in USD with at most 2 decimals)"},
      {"profit = 300", "profit = 300\nloss_chance = 15",
       R"(pip.toml:17: "loss_chance" in [aims] is 15, expected a share from 0 to 1)"},
      {"sound = 3000", "",
       R"(pip.toml:17: nothing says what a sound one sells for, expected [value] sound = [low, likely, high] or [[comparable]] rows)"},
      {"odds = 3", "odds = -3",
       R"(pip.toml:24: "odds" in [[cause]] "gasket" is -3, expected a number of 0 or more, relative to the other causes)"},
      {"name = \"pump\"", "name = \"gasket\"",
       R"(pip.toml:28: "name" in [[cause]] is "gasket", expected a name that no other [[cause]] has; the one in line 23 has it)"},
      {"found = 800", "found = [800, 700, 900]",
       R"(pip.toml:30: "found" in [[cause]] "pump" is [800, 700, 900], expected three points in rising order, low <= likely <= high)"},
      {"fees = 100", "fee_bands = [[0, 150], [1000, 90]]",
       R"(pip.toml:5: "fee_bands" in [deal] is [[0, 150], [1000, 90]], expected a list of [price, fee] pairs such as [[0, 150], [1000, 210]], the first from 0, prices rising, fees not falling)"},
      {"fees = 100", "fee_bands = [[100, 150]]",
       R"(pip.toml:5: "fee_bands" in [deal] is [[100, 150]], expected a list of [price, fee] pairs such as [[0, 150], [1000, 210]], the first from 0, prices rising, fees not falling)"},
      {"fees = 100", "gone = 1.5",
       R"(pip.toml:5: "gone" in [deal] is 1.5, expected a chance of 0 or more and at most 1)"},
      {"cash = 12", "cash = 12\ngone = -0.1",
       R"(pip.toml:42: "gone" in [[test]] "gas" is -0.1, expected a chance of 0 or more and at most 1)"},
      {"found = 800", "found = 800\nopening_up = { hours = 2, money = 5 }",
       R"(pip.toml:31: unknown key "money" in [cause.opening_up] of [[cause]] "pump"; known here: hours cash)"},
      {"days = 10", "days = 4000", R"(pip.toml:13: "days" in [sale] is 4000, expected at most 3650 days)"},
      {"correction = \"reseal\"", "correction = \"resael\"",
       R"(pip.toml:26: "correction" in [[cause]] "gasket" names "resael", expected the name of a [[correction]], did you mean "reseal"?)"},
      {"hours = [[5, 7, 9], 2]", "hours = [5, 7, 9]",
       R"(pip.toml:33: "hours" in [[correction]] "reseal" is [5, 7, 9], expected a list of amounts, one for each operation: [[low, likely, high]] for one operation by three points)"},
      {"hours = [[5, 7, 9], 2]", "hours = [[5, 7, 9], -2]",
       R"(pip.toml:33: "hours" in [[correction]] "reseal" is -2, expected a number of hours, 0 or more, or three points [low, likely, high] of such)"},
      {"hours = [[5, 7, 9], 2]", "hours = 9\noperations = []",
       R"(pip.toml:33: [[correction]] "reseal" has both "hours" and "operations", expected one of them)"},
      {"qty = 1, new = 118", "qty = 0, new = 118",
       R"(pip.toml:34: "qty" in part "set" is 0, expected a number of pieces above 0)"},
      {"qty = 1, new = 118", "qty = 1",
       R"(pip.toml:34: part "set" has no price, expected at least one of "new", "salvage", "reman")"},
      {"qty = 1, new = 118", "qty = 1, new = 118, use = \"salvage\"",
       R"(pip.toml:34: "use" in part "set" is "salvage", expected a source that has a price; add salvage = PRICE or use another)"},
      {"qty = 1, new = 118", "qty = 1, new = 118, bad = 0.2",
       R"(pip.toml:34: "bad" in part "set" is about a salvage part, expected a "salvage" price beside it)"},
      {"qty = 1, new = 118", "qty = 1, new = 118, pull_hour = 1",
       R"(pip.toml:34: unknown key "pull_hour" in part "set", did you mean "pull_hours"?)"},
      {"works = 0.8", "works = 1.8",
       R"(pip.toml:35: "works" in [[correction]] "reseal" is 1.8, expected a share from 0 to 1)"},
      {"works = 0.8", "otherwise = \"reseal\"",
       R"(pip.toml:35: "otherwise" in [[correction]] "reseal" is "reseal", expected a correction that does not lead back to one made before)"},
      {"\"gasket\" = [0.9, 0.1]", "\"gasket\" = [0.9, 0.2]",
       R"(pip.toml:43: test "gas": the chances under "gasket" add up to 1.1, expected 1)"},
      {"\"gasket\" = [0.9, 0.1]", "\"gasket\" = [0.9, 0.05, 0.05]",
       R"(pip.toml:43: "gasket" in "given" of [[test]] "gas" is [0.9, 0.05, 0.05], expected a list of 2 chances from 0 to 1, one for each outcome, that add up to 1)"},
      {"\"gasket\" = [0.9, 0.1], ", "",
       R"(pip.toml:43: test "gas" has no chances under "gasket" in "given", expected a list of 2 chances from 0 to 1, one for each outcome, that add up to 1)"},
      {"\"pump\" = [0.05, 0.95]", "\"pump\" = [0.05, 0.95], \"pum\" = [0.5, 0.5]",
       R"(pip.toml:43: test "gas": "given" has a row for "pum", expected the name of a [[cause]], did you mean "pump"?)"},
      {"outcomes = [\"colour\", \"none\"]", "outcomes = [\"colour\", \"colour\"]",
       R"(pip.toml:42: "outcomes" in [[test]] "gas" is ["colour", "colour"], expected outcomes that differ from each other)"},
      {"cash = 12", "cash = 12\nseen = \"color\"",
       R"(pip.toml:42: "seen" in [[test]] "gas" is "color", expected one of its outcomes: "colour", "none")"},
      {"cash = 12", "cash = 12\nabout = \"rod\"",
       R"(pip.toml:42: "about" in [[test]] "gas" names "rod", expected the name of a [[trouble]], did you mean "rot"?)"},
      {"chance = 0.2", "chance = 20",
       R"(pip.toml:46: "chance" in [[trouble]] "rot" is 20, expected a share from 0 to 1)"},
      {"takes_off = 200\nfix = [{ name = \"from the yard\", source = \"salvage\", cash = 55, hours = 2, "
       "restores = 0.95 }]",
       "takes_off = 200\nmust = true",
       R"(pip.toml:54: [[fault]] "wing" must be put right and has no fix, expected at least one [[fault.fix]])"},
      {"restores = 0.95", "restores = 95",
       R"(pip.toml:54: "restores" in [[fault.fix]] "from the yard" is 95, expected a share from 0 to 1)"},
      {"source = \"salvage\"", "source = \"yard\"",
       R"(pip.toml:54: "source" in [[fault.fix]] "from the yard" is "yard", expected "salvage", "new" or "repair")"},
      {"[scrap]", "[[offer]]\nname = \"promise\"\nprice = 1000\ncovers = { \"gaskt\" = 0.5 }\n[scrap]",
       R"(pip.toml:40: "gaskt" in "covers" of [[offer]] "promise" names "gaskt", expected the name of a [[cause]], did you mean "gasket"?)"},
      {"[scrap]", "[[offer]]\nname = \"promise\"\nprice = 1000\ncovers = { \"pump\" = 0.5 }\n[scrap]",
       R"(pip.toml:40: "covers" of [[offer]] "promise" has a share for "pump", which has no correction, expected a cause that can be put right)"},
      {"[aims]", "[[aims]]", R"(pip.toml:15: "aims" in the file is [a table], expected a table, [aims])"},
  };
  for (const Mistake& mistake : mistakes)
    CHECK(refusal_of(small_job_with(mistake.replaced, mistake.by)) == mistake.says);
}

TEST_CASE("a table that must be there and is not is asked for", "[appraisal][read]") {
  CHECK(refusal_of(small_job_with("[deal]\nasking = 900\nfees = 100\n", "")) ==
        "pip.toml:1: the file has no [deal], expected that table");
  const auto causes_end = small_job.find("[[correction]]");
  const auto causes_begin = small_job.find("[[cause]]");
  CHECK(refusal_of(small_job.substr(0, causes_begin) + small_job.substr(causes_end)) ==
        "pip.toml:1: the file has no [[cause]], expected at least one");
}

TEST_CASE("a bare decision problem is a job file: what is not said costs nothing", "[appraisal][read]") {
  const Job job = job_of(R"([deal]
asking = 100
[value]
sound = 300
[[cause]]
name = "lead"
odds = 1
)");
  CHECK(job.shop.pace.mean() == 1);
  CHECK(job.aims.profit() == 0);
  CHECK_FALSE(job.aims[Aim::loss_chance]);
  const Appraisal a = appraised(job, 8);
  CHECK(cents(a.asked.expected.profit) == "-100.00");  // no course is left: worth nothing
  CHECK(a.asked.expected.days == 0);
  CHECK(cents(a.walk_away.price) == "0.00");
}

TEST_CASE("odds that are all zero, and outcomes that cannot have come together, are refused",
          "[appraisal][read]") {
  CHECK(refusal_of(with(small_job_with("odds = 3", "odds = 0"), "odds = 1", "odds = 0")) ==
        "pip.toml:24: the odds of all causes are 0, expected at least one above 0");
  const std::string certain = with(small_job_with("\"gasket\" = [0.9, 0.1]", "\"gasket\" = [1, 0]"),
                                   "\"pump\" = [0.05, 0.95]", "\"pump\" = [1, 0]");
  CHECK(refusal_of(with(certain, "cash = 12", "cash = 12\nseen = \"none\"")) ==
        "pip.toml:1: the outcomes seen cannot come together under any cause, expected chances above 0 for "
        "what was seen; correct "
        "\"given\" or \"seen\"");
  CHECK(refusal_of(with(certain, "cash = 12", "cash = 12\nspoiled = true\nseen = \"none\"")) == "accepted");
}

TEST_CASE("a ninth trouble is refused", "[appraisal][read]") {
  std::string text = small_job;
  for (int i = 2; i <= 8; ++i) text += fmt::format("[[trouble]]\nname = \"t{}\"\nchance = 0.1\n", i);
  CHECK(refusal_of(text) == "accepted");
  CHECK(refusal_of(text + "[[trouble]]\nname = \"t9\"\nchance = 0.1\n") ==
        "pip.toml:76: a ninth [[trouble]], expected at most 8; put those that matter least together");
}

TEST_CASE("causes and sets of troubles that are too many together to be weighed are refused",
          "[appraisal][read]") {
  std::string text = small_job;
  for (int i = 2; i <= 8; ++i) text += fmt::format("[[trouble]]\nname = \"t{}\"\nchance = 0.1\n", i);
  const auto added = [&](int causes) {
    std::string more = text;
    for (int i = 0; i < causes; ++i)
      more += fmt::format("[[cause]]\nname = \"added {}\"\nodds = 1\nfound = 300\n", i);
    return refusal_of(more);
  };
  CHECK(added(150) ==
        "pip.toml:1: 152 [[cause]]s and 8 [[trouble]]s make 38912 cases, expected at most 25600; put those "
        "that "
        "matter least together");
  CHECK(added(50).find("cases, expected") == std::string::npos);
}

TEST_CASE("corrections that lead back to each other are refused, long chains are not", "[appraisal][read]") {
  std::string text = small_job_with("works = 0.8", "works = 0.5\notherwise = \"c0\"");
  for (int i = 0; i < 20; ++i)
    text += fmt::format("[[correction]]\nname = \"c{}\"\nhours = 1\nworks = 0.5\n{}", i,
                        i < 19 ? fmt::format("otherwise = \"c{}\"\n", i + 1) : "");
  CHECK(refusal_of(text) == "accepted");
  for (int i = 20; i < 30; ++i)
    text += fmt::format("{}[[correction]]\nname = \"c{}\"\nhours = 1\nworks = 0.5\n",
                        fmt::format("otherwise = \"c{}\"\n", i), i);
  CHECK(refusal_of(text).find("expected a chain of at most 30 corrections") != std::string::npos);
  CHECK(refusal_of(text + "otherwise = \"c5\"\n")
            .find("expected a correction that does not lead back to one made before") != std::string::npos);
}

TEST_CASE("an outcome on the command line is found by names as they stand, equals signs and all",
          "[appraisal][read]") {
  Job job = job_of(with(small_job_with("name = \"gas\"", "name = \"gas = bad\""), "\"colour\", \"none\"",
                        "\"a=b\", \"none\""));
  see(job, "gas = bad=a=b");
  CHECK(job.tests[0].seen == 0u);
  const auto refused = [&](const std::string& given) -> std::string {
    try {
      see(job, given);
    } catch (const WrongUsage& wrong) {
      return wrong.what();
    } catch (const Refusal& refusal) {
      return refusal.what();
    }
    return "accepted";
  };
  CHECK(refused("gas = bad=nune") ==
        "test \"gas = bad\" has no outcome \"nune\", expected one of \"a=b\", \"none\", "
        "did you mean "
        "\"none\"?");
  CHECK(refused("gas = bat=none") == "the job file has no test \"gas \", expected one of \"gas = bad\"");
  CHECK(refused("gas") == "found \"gas\", expected TEST=OUTCOME with names as in the job file");
  job.tests[0].spoiled = true;
  CHECK(refused("gas = bad=none") ==
        "test \"gas = bad\" is spoiled in the file, expected one that can be trusted");
}

TEST_CASE("a lost paper bars the road unless a trouble about the paper says how likely that is",
          "[appraisal][read]") {
  const std::string lost = small_job_with("tag = \"pip\"", "tag = \"pip\"\npaper = \"lost\"");
  CHECK(job_of(lost).road_barred);
  for (const char* chance : {"0", "0.1"})
    CHECK(
        job_of(with(lost, "chance = 0.2", fmt::format("chance = {}\nbars_road = true", chance))).road_barred);
  const std::string barring = with(lost, "chance = 0.2", "chance = 0.2\nbars_road = true");
  for (const char* name : {"no title to be had", "Title: not on file", "papers-lost"}) {
    const Job job = job_of(with(barring, "name = \"rot\"", fmt::format("name = \"{}\"", name)));
    CHECK_FALSE(job.road_barred);
    CHECK(job.paper_trouble == 0u);
  }
  for (const char* name : {"entitled to nothing", "wallpaper", "subtitles"})
    CHECK(job_of(with(barring, "name = \"rot\"", fmt::format("name = \"{}\"", name))).road_barred);
  const std::string mild = with(lost, "name = \"rot\"", "name = \"title smudged\"");
  CHECK(job_of(mild).road_barred);  // it does not bar the road, so it says nothing of that
  CHECK_FALSE(job_of(small_job).road_barred);
}

TEST_CASE("what nobody sees in a file that is handed in is refused with its line and key",
          "[appraisal][read]") {
  const auto said = [](const std::string& toml) -> std::string {
    try {
      refuse_unfit_names(parse_toml(toml, "pip.toml"), "pip.toml");
    } catch (const Refusal& refusal) {
      return refusal.what();
    }
    return "accepted";
  };
  CHECK(said(small_job) == "accepted");
  const auto hidden = [](const std::string& place, const std::string& text, const std::string& character) {
    return "pip.toml:" + place + " \"" + text + "\" holds a character that nobody sees (" + character +
           "), expected one that can be read; type it anew";
  };
  // A control, one that turns the direction of writing, one without width, a filler: as an escape and as it is.
  CHECK(said(small_job_with("name = \"gasket\"", "name = \"gas\\u0007ket\"")) ==
        hidden("23: name", "gas ket", "U+0007"));
  CHECK(said(small_job_with("name = \"reseal\"", "name = \"re\\u202Eseal\"")) ==
        hidden("32: name", "re\xEF\xBF\xBDseal", "U+202E"));
  CHECK(said(small_job_with("name = \"set\"", "name = \"s\u200Bet\"")) == hidden("34: name",
                                                                                 "s\xEF\xBF\xBD"
                                                                                 "et",
                                                                                 "U+200B"));
  CHECK(said(small_job_with("\"colour\", \"none\"", "\"col\\u3164our\", \"none\"")) ==
        hidden("42: outcomes", "col\u3164our", "U+3164"));
  CHECK(said(small_job_with("\"pump\" = [0.05", "\"pu\\u200Bmp\" = [0.05")) ==
        hidden("43: the key", "pu\xEF\xBF\xBDmp", "U+200B"));
  CHECK(said(small_job_with("name = \"rot\"", "name = \"  \"")) ==
        "pip.toml:45: name \"  \" is nothing but blanks, expected one that can be read; type it anew");
  // Words may have lines.
  CHECK(said(small_job_with("tag = \"pip\"", "tag = \"pip\"\ncomplaint = \"smokes\\nand knocks\"")) ==
        "accepted");
  CHECK(said(small_job_with("name = \"rot\"", "name = \"rot\\nbelow\"")) ==
        hidden("45: name", "rot below", "U+000A"));
}

TEST_CASE(
    "one name is one line of the budget: what a file calls twice, or as a line of every car, is refused",
    "[appraisal][read]") {
  const auto said = [](const std::string& toml) -> std::string {
    try {
      refuse_unfit_names(parse_toml(toml, "pip.toml"), "pip.toml");
    } catch (const Refusal& refusal) {
      return refusal.what();
    }
    return "accepted";
  };
  CHECK(said(small_job_with("new = 118 }]", "new = 118 }]\nsublet = [{ name = \"set\", price = 9 }]")) ==
        "pip.toml:35: name \"set\" is there already in this correction, expected one line for each name; add "
        "them up");
  CHECK(
      said(small_job_with(
          "hours = [[5, 7, 9], 2]",
          "operations = [{ name = \"strip\", hours = 5 }, { name = \"strip\", hours = 2 }]")) ==
      "pip.toml:33: name \"strip\" is there already in this correction, expected one line for each name; add "
      "them up");
  // Written otherwise it is the same name.
  CHECK(
      said(small_job_with("new = 118 }]", "new = 118 }, { name = \"SET.\", qty = 1, new = 9 }]")) ==
      "pip.toml:34: name \"SET.\" is there already in this correction as \"set\", expected one line for each "
      "name; add them up");
  for (const char* name : {"opening-up", "Opening up", "Pulling  parts", "readying."})
    CHECK(said(small_job_with("name = \"set\"", fmt::format("name = \"{}\"", name))) ==
          fmt::format("pip.toml:34: name \"{}\" is that of a line that every car has, expected another one",
                      name));
  CHECK(said(small_job_with("new = 118 }]",
                            "new = 118 }, { name = \"+\", qty = 1, new = 9 }, { name = \"-\", "
                            "qty = 1, new = 9 }]")) == "accepted");
  // Money and hours of one name are two lines.
  CHECK(said(small_job_with("hours = [[5, 7, 9], 2]", "operations = [{ name = \"set\", hours = 5 }]")) ==
        "accepted");
  for (const char* name : {"fees", "opening up", "pulling parts", "readying"})
    for (const char* called : {"\"set\"", "\"rot\"", "\"wing\""})
      CHECK(said(small_job_with("name = " + std::string(called), fmt::format("name = \"{}\"", name)))
                .ends_with(fmt::format(
                    ": name \"{}\" is that of a line that every car has, expected another one", name)));
}

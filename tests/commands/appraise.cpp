// What appraise and new-job print and refuse, and what a program reads of it.
#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>

#include "appraisal/jobs.h"
#include "appraisal/starters.h"
#include "book/events/appraisals.h"
#include "commands/appraise_text.h"
#include "commands/block_digits.h"
#include "commands/counter.h"
#include "commands/desk.h"
#include "commands/session.h"
#include "words/appraisal_figures.h"

using namespace nonrunner;
using namespace nonrunner::commands;

namespace {

const std::string jobs = std::string(NONRUNNER_SOURCE) + "/sample-jobs/";

// The sample job as a file of the shop, so that no path of this machine gets into what is approved.
void put_job(Session& session, const std::string& from, const std::string& name) {
  session.file(name, read_file(jobs + from));
}

nlohmann::json read_of(Session& session, const std::string& line) {
  const Said said = session.type(line);
  INFO(said.err);
  REQUIRE(said.status == 0);
  return nlohmann::json::parse(said.out);
}

std::size_t widest(const std::string& text) {
  std::istringstream in(text);
  std::size_t most = 0;
  for (std::string line; std::getline(in, line);) most = std::max(most, shown_width(line));
  return most;
}

}  // namespace

TEST_CASE("an appraisal reads as approved and fits 80 columns", "[commands][approved]") {
  Session session;
  put_job(session, "sprat/job.toml", "sprat.toml");
  put_job(session, "drayman/rot-as-trouble.toml", "drayman.toml");
  put_job(session, "troupe/job.toml", "troupe.toml");
  check_approved("appraise.txt",
                 session.dialogue(
                     {"appraise SHOP/sprat.toml",
                      "appraise SHOP/sprat.toml --detail --seen \"combustion gas in the coolant=no change\"",
                      "appraise SHOP/drayman.toml --detail", "appraise SHOP/troupe.toml --offer 1800"}));
  for (const std::string& line :
       {std::string("appraise SHOP/sprat.toml --detail"), std::string("appraise SHOP/drayman.toml --detail")})
    CHECK(widest(session.type(line).out) <= 80);
}

TEST_CASE("the answer has at most 40 lines and says last what to do at the seller's", "[commands]") {
  Session session;
  for (const char* job :
       {"sprat/job.toml", "drayman/job.toml", "drayman/rot-as-trouble.toml", "troupe/job.toml",
        "sprat/by-comparables.toml", "five-cars/drake.toml", "five-cars/rook.toml"}) {
    INFO(job);
    put_job(session, job, "job.toml");
    const std::string text = session.type("appraise SHOP/job.toml").out;
    CHECK(std::count(text.begin(), text.end(), '\n') <= 40);
    CHECK(widest(text) <= 80);
    CHECK(text.find("\nHave ") != std::string::npos);
  }
  put_job(session, "drayman/job.toml", "job.toml");
  const std::string text = session.type("appraise SHOP/job.toml").out;
  CHECK(text.find("\nBelow 1,280.28 buy it as it is; from there to 2,251.88 test first; above that\n"
                  "offer less. None pays at 2,750.00.\n") != std::string::npos);
  CHECK(
      text.find("\nTest next (--seen), at 1,906.97: tap the frame and look under the bed; worth\n  211.\n") !=
      std::string::npos);
  CHECK(text.find("\nOFFER LESS: say 1,700.00 first; go up to 1,906.97 as it stands, and to 2,251.88\n"
                  "  only after: tap the frame and look under the bed\n") != std::string::npos);
}

TEST_CASE("an appraisal as JSON has its keys, money as text, chances as numbers", "[commands]") {
  Session session;
  put_job(session, "sprat/job.toml", "sprat.toml");
  const auto json = read_of(session, "appraise SHOP/sprat.toml --json");
  CHECK(json["tag"] == "sprat");
  CHECK(json["currency"] == "USD");
  CHECK(json["asking"] == "1450.00");
  CHECK(json["verdict"] == "offer less");
  CHECK(json["walk_away"]["price"] == "1096.20");
  CHECK(json["walk_away"]["binding"] == "profit");
  CHECK(json["walk_away"]["limits"]["per_hour"] == "1549.19");
  CHECK(json["posterior"][2] ==
        nlohmann::json({{"cause", "head gasket leaking"}, {"prior", 0.34}, {"probability", 0.34}}));
  CHECK(json["offers"][0] ==
        nlohmann::json({{"offer", "as it stands"}, {"price", "1450.00"}, {"expected_profit", "146.21"}}));
  CHECK(json["plan"]["best"] == "0.43");
  CHECK(json["plan"]["first"].is_null());  // 0.43 is not worth the trouble: a quarter of 20.00 is
  CHECK(json["plan_at_walk_away"]["price"] == "1096.20");
  CHECK(json["plan_at_walk_away"]["first"] == "combustion gas in the coolant");
  CHECK(json["next_test"]["test"] == "combustion gas in the coolant");
  CHECK(json["with_tests_price"] == "1430.29");
  CHECK(json["test_from_price"] == "502.07");
  REQUIRE(json["policy"].size() == 4);
  CHECK(json["policy"][2] == nlohmann::json({{"cause", "head gasket leaking"},
                                             {"troubles", nlohmann::json::array()},
                                             {"chance", 0.34},
                                             {"course", "put right"},
                                             {"corrections", {"reseal the head", "another head"}},
                                             {"if_all_fail", nullptr}}));
  CHECK(json["policy_at_asking"] == json["policy"]);
  CHECK(json["aims_held_at_asking"] == false);
  CHECK(json["to_pay"]["price"] == "1096.20");
  CHECK(json["cash_needed"]["worst_case"]["cause"] == "engine seized or cracked");
  CHECK(json["courses"][0]["expected_profit"] == nlohmann::json({{"put right", "2339.66"},
                                                                 {"sell as found", "1363.00"},
                                                                 {"part out", "453.29"},
                                                                 {"scrap", "337.16"}}));
  CHECK(json["expected"]["cash_profit"] == "616.39");
  CHECK(json["fixes"].size() == 6);
  CHECK(json["fix_choices"].size() == 14);
  CHECK(json["after_first_test"].size() == 2);
  CHECK(json["risk"]["loss_chance"].is_number());
  CHECK(json["risk"]["quantiles"]["p05"].is_string());
  CHECK(json["moves"][0]["amount"] == "sound value");
}

TEST_CASE("an offer that is better than as it stands is named first and last", "[commands]") {
  Session session;
  // Only worth it where the seller pays the engine.
  const std::string otter = R"([vehicle]
tag = "otter"
[deal]
asking = 400
fees = 150
[[offer]]
name = "the seller pays the engine"
price = 600
covers = { "engine gone" = 1.0 }
[shop]
hour = 20
pace = 1.2
hours_per_week = 10
wait_days = 5
holding_per_day = 2
[sale]
days = 20
costs = 40
[aims]
profit = 400
[value]
sound = [2600, 2900, 3300]
[[cause]]
name = "engine gone"
odds = 1
found = 250
correction = "engine"
[[correction]]
name = "engine"
hours = [30]
parts = [{ name = "engine", qty = 1, reman = 1600 }]
)";
  session.file("otter.toml", otter);
  const std::string text = session.type("appraise SHOP/otter.toml").out;
  CHECK(
      text.find("\n  BUY: the seller pays the engine\n        as it stands: not unseen, even as a gift\n") !=
      std::string::npos);
  CHECK(text.find("\nBETTER: the seller pays the engine, at 600.00: a profit of 2,026.27 is to be\n"
                  "expected; with it never pay more than 2,226.26.\n") != std::string::npos);
  CHECK(text.find("\nBought at 600.00 (the seller pays the engine): a profit of 2,030 to be expected,\n"
                  "chance of a loss 0 %.\n") != std::string::npos);
  CHECK(text.find("\nBUY: the seller pays the engine, at 600.00 or less\n") != std::string::npos);
  CHECK(session.type("appraise SHOP/otter.toml --detail")
            .out.find("*  the seller pays the engine  600.00  2,226.26         2,026.27   0 %\n") !=
        std::string::npos);
  const auto json = read_of(session, "appraise SHOP/otter.toml --json");
  CHECK(json["verdict"] == "buy");
  CHECK(json["better_offer"] == "the seller pays the engine");
  CHECK(json["offer_limits"][1]["walk_away"]["price"] == "2226.26");
  CHECK(json["offer_limits"][0]["walk_away"] == json["walk_away"]);
  const appraisal::Job job = appraisal::job_of(otter);
  const appraisal::SoundValue sound = appraisal::sound_value_of(job);
  const auto sheet = words::appraisal_figures(appraisal::appraise(job, sound), sound, "mi", Day(2026, 4, 1));
  CHECK(sheet.better.starts_with("BETTER: the seller pays the engine, at 600.00"));
  CHECK_FALSE(sheet.offers[0].take);
  CHECK(sheet.offers[1].take);
  CHECK(appraisal::cents(sheet.offers[1].walk_away) == "2226.26");
}

TEST_CASE("after a test the page says to buy only where all aims allow the price", "[commands]") {
  Session session;
  const auto answer = [&](const std::string& loss_chance, const std::string& offer) {
    const std::string job =
        appraisal::small_job_with("profit = 300", "profit = 300\nloss_chance = " + loss_chance);
    session.file("pip.toml", appraisal::with(job, "[[test]]", offer + "[[test]]"));
    return read_of(session, "appraise SHOP/pip.toml --json --offer 1000");
  };
  auto json = answer("0.3", "");
  CHECK(json["verdict"] == "test first");
  CHECK(json["after_first_test"][0]["then"] == "then buy");
  json = answer("0.05", "");
  CHECK(json["verdict"] == "offer less");
  CHECK(json["next_test"]["price"] == json["walk_away"]["price"]);
  CHECK(json["after_first_test"][0]["then"] == "then offer less");
  CHECK(json["after_first_test"][0]["barred_by"] == "loss_chance");
  const std::string text = session.type("appraise SHOP/pip.toml --offer 1000").out;
  CHECK(text.find("\n\"colour\" would bar the purchase by the chance of a loss: 20 % against 3 % unseen\n") !=
        std::string::npos);
  std::string flat = text;
  std::replace(flat.begin(), flat.end(), '\n', ' ');
  CHECK(
      flat.find(
          " if \"gasket\" without rot means sell as found; what brings more risks more than you accept. ") !=
      std::string::npos);
  const std::string half = R"([[offer]]
name = "he pays half"
price = 1010
covers = { "gasket" = 0.5 }
)";
  CHECK(answer("0.3", half)["after_first_test"][0]["then"] == "then buy: he pays half, up to 1,596.80");
}

TEST_CASE("the best course is starred by what is counted, which is the best one in each case of the troubles",
          "[commands]") {
  Session session;
  const std::string lark = R"([vehicle]
tag = "lark"
[deal]
asking = 300
fees = 50
[shop]
hour = 20
pace = 1
hours_per_week = 10
[sale]
days = 20
[aims]
profit = 0
[value]
sound = 3000
[part_out]
proceeds = 700
hours = 10
[[cause]]
name = "engine gone"
odds = 1
found = 900
[[trouble]]
name = "rot"
chance = 0.6
found_less = 420
)";
  session.file("lark.toml", lark);
  const std::string text = session.type("appraise SHOP/lark.toml --detail").out;
  // As found 900, with rot 480; in pieces 500: 0.4 x 900 + 0.6 x 500 counts.
  CHECK(text.find("\nWHAT IT MAY BE, BY NUMBER            profit before price, fees and opening up\n"
                  "100 %  1  engine gone  part out or sell as found  660.00\n") != std::string::npos);
  CHECK(text.find("             put right  as found  part out  scrap  counted\n"
                  "engine gone          -   +648.00   +500.00      -   660.00\n"
                  "+ the best under some of the troubles") != std::string::npos);
  CHECK(text.find("put right: the mean") == std::string::npos);
  const auto json = read_of(session, "appraise SHOP/lark.toml --json");
  CHECK(json["courses"][0]["best"] == "part out");
  CHECK(json["courses"][0]["expected_profit"]["sell as found"] == "648.00");
  CHECK(json["expected"]["profit"] == "310.00");  // 660 - 300 - 50
  session.file("lark.toml", appraisal::with(lark, "chance = 0.6", "chance = 0.0"));
  const std::string never = session.type("appraise SHOP/lark.toml --detail").out;
  CHECK(never.find("engine gone          -   *900.00    500.00      -\n") != std::string::npos);
}

TEST_CASE("what putting right costs, and its figure where the road may be barred, say what they mean",
          "[commands]") {
  Session session;
  session.file("pip.toml", appraisal::small_job_with("chance = 0.2", "chance = 0.2\nbars_road = true"));
  const std::string some = session.type("appraise SHOP/pip.toml --detail").out;
  CHECK(some.find("\nput right: the mean of the 80 % of cases without \"rot\", which bars the road; in\n"
                  "  the others it cannot be put right\n") != std::string::npos);
  CHECK(some.find("* only to put it right") == std::string::npos);
  session.file("pip.toml", appraisal::small_job_with("chance = 0.2", "chance = 1\nbars_road = true"));
  const std::string none = session.type("appraise SHOP/pip.toml --detail").out;
  CHECK(none.find("\nput right: not possible, since \"rot\" bars the road for certain\n") !=
        std::string::npos);
  CHECK(none.find("*298.00  gasket: reseal") != std::string::npos);
  CHECK(none.find("\n* only to put it right, which is not what pays here: a reason to ask for less,\n"
                  "  not a cost that is counted\n") != std::string::npos);
}

TEST_CASE("a figure that does not exist is null in JSON", "[commands]") {
  Session session;
  session.file("pip.toml", appraisal::small_job);
  const auto json = read_of(session, "appraise SHOP/pip.toml --json --points 64");
  CHECK(json["walk_away"]["limits"]["loss_chance"].is_null());
  CHECK(json["walk_away"]["limits"]["per_hour"].is_null());
  CHECK(json["courses"][0]["expected_profit"]["part out"].is_null());
  CHECK(json["courses"][1]["expected_profit"]["put right"].is_null());
  session.file("none.toml", appraisal::small_job_with("hour = 20", "hour = 0"));
  const auto no_test = read_of(session, "appraise SHOP/none.toml --json --points 64 --offer 5000");
  CHECK(no_test["plan"]["first"].is_null());
  CHECK(no_test["next_test"]["price"] ==
        no_test["walk_away"]["price"]);  // where it is paid, not where it is asked
  const auto no_tests = appraisal::small_job.find("[[test]]");
  session.file("none.toml", appraisal::small_job.substr(0, no_tests));
  const auto none = read_of(session, "appraise SHOP/none.toml --json --points 64");
  CHECK(none["next_test"].is_null());
  CHECK(none["test_from_price"].is_null());
  CHECK(none["with_tests_price"] == none["walk_away"]["price"]);
  CHECK(none["after_first_test"].empty());
}

TEST_CASE("--offer and --seen change what is appraised", "[commands]") {
  Session session;
  put_job(session, "sprat/job.toml", "sprat.toml");
  const auto cheaper = read_of(session, "appraise SHOP/sprat.toml --json --offer 1050 --points 256");
  CHECK(cheaper["asking"] == "1050.00");
  CHECK(cheaper["expected"]["profit"] == "546.21");
  CHECK(cheaper["walk_away"]["price"] == "1096.20");
  const auto seen = read_of(
      session,
      "appraise SHOP/sprat.toml --json --points 256 --seen \"combustion gas in the coolant=colour changes\"");
  CHECK(seen["plan"]["tests"].size() == 3);
  CHECK(std::stod(seen["walk_away"]["limits"]["profit"].get<std::string>()) < 900);
}

TEST_CASE("mistakes on the command line of appraise are wrong usage, mistakes in the file a refusal",
          "[commands]") {
  Session session;
  put_job(session, "sprat/job.toml", "sprat.toml");
  const auto refused = [&](const std::string& line, int status) {
    const Said said = session.type(line);
    CHECK(said.status == status);
    CHECK(said.out.empty());
    return session.masked(said.err);
  };
  CHECK(refused("appraise SHOP/sprat.toml --seen \"combustion gas in the coolant=no chance\"", 2) ==
        "nonrunner: appraise: --seen: test \"combustion gas in the coolant\" has no outcome \"no chance\", "
        "expected "
        "one of \"colour changes\", \"no change\", did "
        "you mean \"no change\"?\n");
  CHECK(refused("appraise SHOP/sprat.toml --points 0", 2) ==
        "nonrunner: appraise: --points: found \"0\", expected a whole number from 64 to 16777216; see: "
        "nonrunner appraise --help\n");
  CHECK(refused("appraise SHOP/sprat.toml --offer -5", 2) ==
        "nonrunner: appraise: --offer: found -5.00, expected an amount of 0 or more; see: nonrunner appraise "
        "--help\n");
  CHECK(refused("appraise SHOP/none.toml", 1) ==
        "nonrunner: SHOP/none.toml: there is no such file; check the name\n");
  session.file("bad.toml", appraisal::small_job_with("wait_days", "walt_days"));
  CHECK(refused("appraise SHOP/bad.toml", 1) ==
        "nonrunner: SHOP/bad.toml:10: unknown key \"walt_days\" in [shop], did you mean \"wait_days\"?\n");
}

TEST_CASE("a starter job is written for each complaint, and is appraised as it stands", "[commands]") {
  Session session;
  int number = 0;
  for (const appraisal::Starter& starter : appraisal::starters()) {
    const std::string file = "SHOP/car-" + std::to_string(++number) + ".toml";
    const Said written = session.type("new-job " + file + " --complaint \"" + starter.complaint + "\"");
    INFO(starter.complaint);
    REQUIRE(written.status == 0);
    const auto json = read_of(session, "appraise " + file + " --json --points 512");
    CHECK(json["tag"] == "car-" + std::to_string(number));
    CHECK(json["posterior"].size() >= 4);
    CHECK(json["plan"]["tests"].size() >= 2);
    CHECK_FALSE(json["cautions"].empty());
    CHECK(std::stod(json["walk_away"]["price"].get<std::string>()) > 500);
    const std::string text =
        read_file((session.folder() / ("car-" + std::to_string(number) + ".toml")).string());
    CHECK(text.find("Every figure is an invented starting value") != std::string::npos);
    CHECK(text.find("hazards") != std::string::npos);
  }
  CHECK(number == 5);
}

TEST_CASE("new-job names the file as a shell takes it for one word", "[commands]") {
  Session session;
  std::filesystem::create_directory(session.folder() / "my cars");
  const Said said =
      session.run({"new-job", session.folder() / "my cars" / "o'hare.toml", "--complaint", "knocks"});
  REQUIRE(said.status == 0);
  CHECK(session.masked(said.out).ends_with("\nthen: nonrunner appraise 'SHOP/my cars/o'\\''hare.toml'\n"));
}

TEST_CASE("a comparable that is pointed out is named so that it is found again", "[commands]") {
  Session session;
  const std::string job = read_file(jobs + "sprat/by-comparables.toml");
  session.file("sprat.toml", appraisal::with(job, "price = 4690", "price = 6990"));  // written wrong
  const auto json = read_of(session, "appraise SHOP/sprat.toml --json");
  std::string far_off;
  for (const auto& row : json["comparables"]["rows"])
    if (row["far_off"]) far_off += row["comparable"].get<std::string>() + "|";
  CHECK(far_off == "comparable at line 273, 6,990.00 at 98200|");
  const std::string noted = json["notes"].back();
  CHECK(noted.starts_with("comparable at line 273, 6,990.00 at 98200: 6582 on the sold basis"));
  const auto& sound = json["comparables"]["sound_value"];
  CHECK(sound["mean"] == json["sound_value"]);
  CHECK(std::stod(sound["p05"].get<std::string>()) < std::stod(sound["p50"].get<std::string>()));
  CHECK(std::stod(sound["p50"].get<std::string>()) < std::stod(sound["p95"].get<std::string>()));
  CHECK(json["comparables"]["slopes"]["odometer"]["likely"] < 0);
  CHECK(json["comparables"]["slopes"]["year"]["give_or_take"] > 0);
  // The same row out of the book has its number there.
  session.type("start SHOP/shop.book --currency USD --distance mi");
  session.file("seen.csv",
               "price,kind,odometer,year,grade,date\n3000,sold,118400,2013,3,2026-04-01\n"
               "6990,sold,118400,2013,3,2026-04-02\n3010,sold,118400,2013,3,2026-04-03\n"
               "3020,sold,118400,2013,3,2026-04-04\n2990,sold,118400,2013,3,2026-04-05\n"
               "3005,sold,118400,2013,3,2026-04-06\n");
  REQUIRE(session.type("comparable add --csv SHOP/seen.csv").status == 0);
  const std::string rows = job.substr(0, job.find("[[comparable]]"));
  session.file("sprat.toml", appraisal::with(rows, "[value]", "[value]\nfrom = \"book\""));
  const auto book = read_of(session, "appraise SHOP/sprat.toml --json");
  std::string number;
  const auto kept = read_of(session, "comparable list --json");
  for (const auto& each : kept["comparables"])
    if (each["price"] == "6990.00") number = std::to_string(each["number"].get<int>());
  const std::string book_note = book["notes"].back();
  CHECK(book_note.starts_with("comparable " + number + " of the book, 6,990.00 at 118400 of 2026-04-02: "));
}

TEST_CASE("new-job refuses an unknown complaint, none at all, and a file that is there already",
          "[commands]") {
  Session session;
  const auto refused = [&](const std::string& line, int status) {
    const Said said = session.type(line);
    CHECK(said.status == status);
    return session.masked(said.err);
  };
  const std::string known =
      "\"cranks but will not start\", \"does not crank\", \"knocks\", \"no drive\", \"overheated\"";
  CHECK(refused("new-job SHOP/a.toml --complaint overheats", 2) ==
        "nonrunner: new-job: --complaint: found \"overheats\", expected one of " + known +
            ", did you mean \"overheated\"?\n");
  CHECK(refused("new-job SHOP/a.toml", 2) ==
        "nonrunner: new-job: which complaint? expected --complaint with one of " + known +
            "; see: nonrunner new-job --help\n");
  CHECK_FALSE(std::filesystem::exists(session.folder() / "a.toml"));
  session.file("a.toml", "mine");
  CHECK(refused("new-job SHOP/a.toml --complaint knocks", 1) ==
        "nonrunner: SHOP/a.toml: found a file of that name, expected none; name another, nothing was "
        "written\n");
  CHECK(read_file((session.folder() / "a.toml").string()) == "mine");
  CHECK(session.type("new-job SHOP/no/such/folder.toml --complaint knocks").status == 3);
}

TEST_CASE("a number is drawn large, five lines high", "[commands]") {
  CHECK(block_digits("-1.0", 2) ==
        "          #        ###\n"
        "         ##       #   #\n"
        "  ####    #       #   #\n"
        "          #       #   #\n"
        "         ###   #   ###\n");
}

TEST_CASE("what is said beside a kept appraisal is kept when that is asked for, and said to be lost else",
          "[commands]") {
  Counter counter("appraise-beside");
  const std::string file = counter.file("pip.toml", appraisal::small_job);
  const auto last = [&](const Words& words) {
    const std::string out = counter.run(words);
    return out.substr(out.rfind('\n', out.size() - 2) + 1);
  };
  CHECK(last({"appraise", file, "--seen", "1=2"}).starts_with("all figures"));
  counter.run({"appraise", file, "--keep"});
  CHECK(last({"appraise", "pip", "--seen", "1=2"}) ==
        "not kept: with --keep what was seen stays in the book\n");
  CHECK(last({"appraise", "pip", "--offer", "321"}) == "not kept: with --keep the price stays in the book\n");
  counter.run({"appraise", "pip", "--offer", "321", "--keep"});
  CHECK(nlohmann::json::parse(counter.run({"appraise", "pip", "--json"}))["asking"] == "321.00");
}

TEST_CASE("a cause without any course has nothing to be done with it, on every line that names it",
          "[commands]") {
  Counter counter("no-course");
  using appraisal::with;
  const std::string toml = with(with(appraisal::small_job, "found = 500\ncorrection = \"reseal\"\n", ""),
                                "[scrap]\nvalue = 310\n", "");
  const std::string file = counter.file("pip.toml", toml);
  const std::string text = counter.run({"appraise", file, "--detail"});
  CHECK(counter.status == 0);
  CHECK_THAT(text, Catch::Contains("gasket  do nothing\n"));
  CHECK_THAT(text, Catch::Contains("gasket          -         -         -      -"));
  CHECK_THAT(text, Catch::Contains("pump    sell as found\n"));
  const auto json = nlohmann::json::parse(counter.run({"appraise", file, "--json"}));
  CHECK(json["courses"][0]["best"] == "do nothing");
  CHECK(json["courses"][0]["expected_profit"]["sell as found"].is_null());
  CHECK(json["courses"][1]["best"] == "sell as found");
  CHECK(json["policy_at_asking"][0]["course"] == "do nothing");
  const appraisal::Job job = appraisal::job_of(toml);
  const appraisal::SoundValue sound = appraisal::sound_value_of(job);
  const auto sheet = words::appraisal_figures(appraisal::appraise(job, sound), sound, "mi", Day(2026, 4, 1));
  CHECK(sheet.states.front().course_name(1) == std::string("do nothing"));
  CHECK(sheet.states.back().course_name(1) == std::string("sell as found"));
}

TEST_CASE(
    "a name that cannot be read is refused wherever a job file is handed in, and kept ones stay readable",
    "[commands]") {
  Counter counter("unseen-names");
  counter.run({"owner", "in", "3000", "--purse", "cash", "--date", "2026-04-01"});
  const std::string bad = appraisal::small_job_with("name = \"rot\"", "name = \"ro\\u200Bt\"");
  const std::string refused =
      "pip.toml:45: name \"ro\xEF\xBF\xBDt\" holds a character that nobody sees (U+200B), expected one that "
      "can be "
      "read; type it anew\n";
  const std::string file = counter.file("pip.toml", bad);
  for (const Words& words :
       {Words{"appraise", file}, Words{"fixes", file}, Words{"choose", file, "--cash", "4000"},
        Words{"buy", "pip", "900", "--purse", "cash", "--date", "2026-04-04", "--job", file}}) {
    CHECK(counter.run(words) == "nonrunner: " + refused);
    CHECK(counter.status == 1);
  }
  // One that an older version kept is shown, without what would move a cursor.
  {
    book::Book book = book::Book::open(counter.book());
    book::Recording recording(book, "2026-04-02T12:00:00Z", Day(2026, 4, 2));
    book::keep_appraisal(recording, "pip", Day(2026, 4, 2), 0,
                         {appraisal::with(bad, "\\u200B", "\\u001B[31m"), "", "{}"});
    recording.keep();
  }
  const std::string shown = counter.run({"appraise", "pip", "--detail"});
  CHECK(counter.status == 0);
  CHECK(shown.find('\x1B') == std::string::npos);
  CHECK_THAT(shown, Catch::Contains("ro [31mt"));
}

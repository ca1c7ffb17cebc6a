// What `go-on` reckons from the appraisal in force and the book.
#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "commands/sprat_until.h"
#include "text/toml.h"

using namespace nonrunner;
using Catch::Matchers::WithinAbs;
using commands::Counter;
using nlohmann::json;

namespace {

json course(const json& answer, const std::string& name) {
  for (const json& each : answer["courses"])
    if (each["name"] == name) return each;
  return nullptr;
}

void buy_drayman(Counter& counter, const std::string& fee) {
  const std::string job =
      counter.file("job.toml", read_file(NONRUNNER_SOURCE "/sample-jobs/drayman/job.toml"));
  commands::Words words = {"buy", "dray", "2750", "--purse", "cash", "--job", job, "--date", "2026-05-02"};
  if (!fee.empty()) words.insert(words.end(), {"--fee", fee});
  counter.run(words);
}

}  // namespace

TEST_CASE("go-on: neither fees nor opening up are part of what is to come once the cause is noted",
          "[commands]") {
  Counter counter("go-on-finished");
  buy_drayman(counter, "title=75");
  // Before a cause is noted opening up is still to come: 18 and (1.5 + 4 x 2.5 + 5) / 6 h at the pace
  // of 1.28333.
  json budget = json::parse(counter.run({"show", "dray", "--json"}))["budget"];
  CHECK(budget["lines"][0]["what"] == "fees");
  CHECK(budget["lines"][0]["to_come"] == "440.00");  // of 515.00: a tow may still be to pay
  CHECK(budget["lines"][1]["to_come"] == "18.00");
  CHECK_THAT(budget["hours"][0]["to_come"].get<double>(), WithinAbs(16.5 / 6 * 7.7 / 6, 1e-9));

  counter.run({"note", "dray", "rot", "--cause", "rot in frame, tank and lines"});
  const json answer = json::parse(counter.run({"go-on", "dray", "--json"}));
  // Tank 235, pump 168, lines 58, oil 12.80, welding 11900 / 6; the fixes 140, 3560 / 6, 95, 240, 28, 75, 79.
  CHECK(course(answer, "put right")["spend"] == "3707.46");
  // 30, 33 and 29 sixths of an hour for the correction; 7.6, 6.5, 3.1, 6.1, 3.8, 10.4 and 10.9 for the fixes.
  const double hours = (30 + 33 + 29 + 7.6 + 6.5 + 3.1 + 6.1 + 3.8 + 10.4 + 10.9) / 6 * 7.7 / 6;
  CHECK_THAT(course(answer, "put right")["hours"].get<double>(), WithinAbs(hours, 1e-9));
  const json shown = json::parse(counter.run({"show", "dray", "--json"}));
  CHECK(shown["budget"]["cash_to_come"] == "4147.46");  // with the fees, that are the same on every course
  CHECK_THAT(shown["budget"]["hours_to_come"].get<double>(), WithinAbs(hours, 1e-9));
  CHECK(shown["break_even_price"] == "7032.46");  // 2,825.00 spent, 4,147.46 to come, 60.00 of selling
}

TEST_CASE("go-on: fees that are still to be paid belong to no course", "[commands]") {
  Counter counter("go-on-fees");
  buy_drayman(counter, "");
  counter.run({"note", "dray", "rot", "--cause", "rot in frame, tank and lines"});
  // They are still in the break-even price.
  CHECK(json::parse(counter.run({"show", "dray", "--json"}))["budget"]["cash_to_come"] == "4222.46");
  CHECK(course(json::parse(counter.run({"go-on", "dray", "--json"})), "put right")["spend"] == "3707.46");
}

TEST_CASE("go-on: a trouble that nobody looked for counts by its chance, one found or ruled out for certain",
          "[commands]") {
  Counter counter("go-on-trouble");
  const std::string job =
      counter.file("job.toml", read_file(NONRUNNER_SOURCE "/sample-jobs/drayman/rot-as-trouble.toml"));
  counter.run({"buy", "dray", "2750", "--purse", "cash", "--job", job, "--date", "2026-05-02"});
  counter.run({"note", "dray", "no pressure", "--cause", "fuel pump dead"});
  const auto asked = [&] { return json::parse(counter.run({"go-on", "dray", "--json"})); };
  const auto number = [](const json& answer, const char* name, const char* key) {
    return std::stod(course(answer, name)[key].get<std::string>());
  };
  const json open = asked();
  CHECK(open["troubles_by_chance"].dump() == R"([{"chance":0.3,"trouble":"rot in frame, tank and lines"}])");
  const std::string screen = counter.run({"go-on", "dray"});
  CHECK(screen.find("\nnobody looked for it yet, so it counts by its chance: rot in frame, tank and\n  lines "
                    "(30 %);") != std::string::npos);
  counter.run({"note", "dray", "looked", "--trouble", "rot in frame, tank and lines=not there"});
  const json sound = asked();
  CHECK(sound["troubles_by_chance"].empty());
  counter.run({"note", "dray", "looked again", "--trouble", "rot in frame, tank and lines=there"});
  const json rotten = asked();
  // The work on it by formula: cash (1874 + 4 x 2374 + 3374) / 6; hours (9 + 56 + 27) / 6 at the pace of 7.7 / 6.
  CHECK_THAT(number(rotten, "put right", "spend") - number(sound, "put right", "spend"),
             WithinAbs(14744.0 / 6, 0.006));
  CHECK_THAT(number(open, "put right", "spend") - number(sound, "put right", "spend"),
             WithinAbs(0.3 * 14744.0 / 6, 0.006));
  CHECK_THAT(
      course(open, "put right")["hours"].get<double>() - course(sound, "put right")["hours"].get<double>(),
      WithinAbs(0.3 * 92 / 6 * 7.7 / 6, 1e-9));
  // As it stands it fetches 950 less where there is rot.
  CHECK_THAT(number(sound, "sell as found", "brings") - number(open, "sell as found", "brings"),
             WithinAbs(285, 0.006));
  CHECK_THAT(number(sound, "sell as found", "brings") - number(rotten, "sell as found", "brings"),
             WithinAbs(950, 0.006));
  // All of it is a mean, so every course is worth 0.7 of the one and 0.3 of the other.
  for (const char* name : {"put right", "sell as found", "part out", "scrap"})
    CHECK_THAT(number(open, name, "value"),
               WithinAbs(0.7 * number(sound, name, "value") + 0.3 * number(rotten, name, "value"), 0.011));
}

TEST_CASE("go-on: where a trouble may bar the road, putting right is worth the best other way by its chance",
          "[commands]") {
  Counter counter("go-on-barred");
  std::string job = read_file(NONRUNNER_SOURCE "/sample-jobs/drayman/rot-as-trouble.toml");
  job += "[[trouble]]\nname = \"no paper to be had\"\nchance = 0.25\nbars_road = true\nfound_less = 400\n";
  counter.run({"buy", "dray", "2750", "--purse", "cash", "--job", counter.file("job.toml", job), "--date",
               "2026-05-02"});
  counter.run({"note", "dray", "no pressure, no rot", "--cause", "fuel pump dead", "--trouble",
               "rot in frame, tank and lines=not there"});
  const auto value = [&](const char* name) {
    return std::stod(
        course(json::parse(counter.run({"go-on", "dray", "--json"})), name)["value"].get<std::string>());
  };
  const double put_right = value("put right"), as_found = value("sell as found"), pieces = value("part out"),
               scrap = value("scrap");
  counter.run({"note", "dray", "asked", "--trouble", "no paper to be had=not there"});
  CHECK_THAT(as_found, WithinAbs(value("sell as found") - 0.25 * 400, 0.011));
  CHECK(value("part out") == pieces);
  const double barred = std::max({value("sell as found") - 400, pieces, scrap});
  CHECK_THAT(put_right, WithinAbs(0.75 * value("put right") + 0.25 * barred, 0.011));
}

TEST_CASE("go-on with an earlier day looks from the end of that day, of a car sold since as well",
          "[commands]") {
  Counter counter("go-on-day");
  post_sprat(counter);
  const std::string courses = NONRUNNER_SOURCE "/sample-jobs/sprat/go-on.toml";
  json answer =
      json::parse(counter.run({"go-on", "sprat", "--file", courses, "--date", "2025-03-09", "--json"}));
  CHECK(answer["spent"] == "1415.87");
  CHECK(answer["worked"] == 9.3);
  answer = json::parse(counter.run({"go-on", "sprat", "--file", courses, "--json"}));
  CHECK(answer["spent"] == "2368.75");
  CHECK(counter.run({"go-on", "sprat"}) ==
        "nonrunner: go-on: sprat was sold on 2025-04-15; there is nothing left to decide, expected a --date "
        "before that\n");

  // From the book: the cause was noted on the 9th, the matrix and the fixes were still to come.
  CHECK(counter.run({"go-on", "sprat", "--date", "2025-03-08"}).find("which cause was found on sprat: ") !=
        std::string::npos);
  CHECK(counter.run({"go-on", "sprat", "--date", "2025-03-01"})
            .find("no appraisal is kept for sprat by 2025-03-01;") != std::string::npos);
  answer = json::parse(counter.run({"go-on", "sprat", "--date", "2025-03-09", "--json", "--keep"}));
  CHECK(answer["spent"] == "1415.87");
  CHECK(answer["worked"] == 9.3);
  const json on_the_9th = course(answer, "put right");
  answer = json::parse(counter.run({"go-on", "sprat", "--date", "2025-04-14", "--json"}));
  CHECK(on_the_9th["spend"] == "559.57");  // fixes 518.00, of the correction 41.57
  CHECK(course(answer, "put right")["spend"] == "0.00");
  // Kept, it bears the day that it is about.
  const std::string entries = counter.run({"entries", "sprat"});
  CHECK(entries.find("2025-03-09  finding        sprat, go on or stop: put right") != std::string::npos);
}

TEST_CASE("go-on with an earlier day counts what could still go back then", "[commands]") {
  Counter counter("go-on-back");
  counter.today = Day(2026, 5, 20);
  buy_drayman(counter, "title=75");
  counter.run({"note", "dray", "rot", "--cause", "rot in frame, tank and lines", "--date", "2026-05-03"});
  counter.run({"post", counter.file("papers.toml", R"(event = [
  { do = "receipt", date = 2026-05-04, supplier = "Harrow", paid = "cash", tax = 0.00, total = 235.00, back_by = 2026-05-12, line = [
    { id = "tank", what = "fuel tank with straps", unit = 235.00, kind = "part", to = "dray" } ] },
  { do = "return", date = 2026-05-10, line = "tank", goods = 235.00, tax = 0.00, purse = "cash" },
])")});
  const auto back_on = [&](const std::string& day) {
    return course(json::parse(counter.run({"go-on", "dray", "--date", day, "--json"})), "scrap")["back"];
  };
  CHECK(back_on("2026-05-03") == "0.00");
  CHECK(back_on("2026-05-04") == "235.00");
  CHECK(back_on("2026-05-10") == "0.00");
}

TEST_CASE("go-on: a part of a wrong guess that can still go back comes back on put right as well",
          "[commands]") {
  Counter counter("go-on-wrong-guess");
  counter.today = Day(2026, 5, 10);
  buy_drayman(counter, "title=75");
  counter.run({"post", counter.file("papers.toml", R"(event = [
  { do = "receipt", date = 2026-05-04, supplier = "Harrow", paid = "cash", tax = 0.00, total = 290.50, back_by = 2026-05-12, line = [
    { id = "sensor", what = "crank position sensor", unit = 46.50, kind = "part", to = "dray" },
    { id = "ramp", what = "ramp pads", unit = 9.00, kind = "part", to = "dray" },
    { id = "tank", what = "fuel tank with straps", unit = 235.00, kind = "part", to = "dray" } ] },
])")});
  counter.run({"note", "dray", "rot", "--cause", "rot in frame, tank and lines"});
  const auto back = [&](const std::string& name) {
    return course(json::parse(counter.run({"go-on", "dray", "--json"})), name)["back"];
  };
  CHECK(back("put right") == "55.50");  // the sensor and the pads; the tank it needs
  CHECK(back("scrap") == "290.50");
  const std::string screen = counter.run({"go-on", "dray"});
  CHECK(screen.find("\nback on put right as well, since") != std::string::npos);
  CHECK(screen.find("ramp pads;") != std::string::npos);
  CHECK(screen.find("fuel tank") == std::string::npos);
  // What a person put under a heading of one's own is wanted.
  counter.run({"under", "dray", "discovery", "--paper-line", "ramp"});
  CHECK(back("put right") == "46.50");
  // Had it been the sensor, the tank would go back.
  const json sensor =
      json::parse(counter.run({"go-on", "dray", "--cause", "crank sensor or its wiring", "--json"}));
  CHECK(course(sensor, "put right")["back"] == "235.00");
}

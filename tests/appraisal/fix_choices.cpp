#include "appraisal/fix_choices.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "appraisal/fixes.h"
#include "appraisal/frontier.h"
#include "appraisal/knapsack.h"
#include "appraisal/read_job.h"
#include "appraisal/source.h"
#include "text/toml.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;
using Catch::Matchers::WithinAbs;

namespace {
Job sprat() {
  const std::string file = NONRUNNER_SOURCE "/sample-jobs/sprat/job.toml";
  return read_job(read_file(file), file, Currency{});
}
}  // namespace

TEST_CASE("the gain of each fix of the sample hatchback is right to the cent", "[appraisal]") {
  // Worked apart with the job; gains to the cent.
  const std::map<std::string, std::map<std::string, double>> expected = {
      {"windscreen cracked across", {{"new glass, fitted", 0.41}}},
      {"front tyres at the wear bars", {{"new pair, fitted", -8.45}, {"part-worn pair, fitted", 34.55}}},
      {"front brakes worn, discs lipped", {{"pads and discs, new", 6.43}}},
      {"rear bumper cover split",
       {{"plastic weld and touch up", -16.40},
        {"cover from the yard, same colour", 88.86},
        {"new cover, painted outside", -231.72}}},
      {"headlamps yellowed", {{"polish and seal", 41.72}, {"new pair", -149.45}}},
      {"driver's seat cloth torn", {{"seat from the yard", 23.79}, {"seat cover", 10.82}}},
      {"air conditioning not cold", {{"leak found and charged outside", -78.35}}},
      {"dent in the rear quarter",
       {{"fill and spray at home", -149.89}, {"pushed out without paint, outside", -49.60}}}};
  const Job job = sprat();
  std::size_t fixes = 0;
  for (const ChoiceClass& one : fix_choices(job))
    for (const Choice& choice : one.choices) {
      if (choice.name == leave_it) continue;
      INFO(one.name << ": " << choice.name);
      CHECK_THAT(choice.gain, WithinAbs(expected.at(one.name).at(choice.name), 0.005));
      ++fixes;
    }
  CHECK(fixes == 14);
}

TEST_CASE("without limits the best set is the one that the appraisal counts with", "[appraisal]") {
  const Job job = sprat();
  const auto classes = fix_choices(job);
  const ChoiceSet best = *best_set(classes, {}).best;
  const FixPlan plan = best_fixes(job);
  double gain = 0;
  for (std::size_t k = 0; k < job.faults.size(); ++k) {
    gain += plan.choices[k].gain;
    const Fix* fix = fix_of(job.faults[k], best.picks[k]);
    REQUIRE((fix != nullptr) == plan.choices[k].fix.has_value());
    if (fix) CHECK(fix == &job.faults[k].fixes[*plan.choices[k].fix]);
  }
  CHECK_THAT(best.gain, WithinAbs(gain, 1e-9));
  CHECK_THAT(best.cash, WithinAbs(518.00, 0.005));
  CHECK_THAT(best.hours, WithinAbs(7.97, 0.005));  // as they will really be taken
}

TEST_CASE("faults that must be put right come before the first choice of the way", "[appraisal]") {
  const Job job = sprat();
  const auto classes = fix_choices(job);
  const auto way = steps(frontier(classes, std::nullopt));
  REQUIRE(way.size() == 5);  // the musts, bumper, headlamps, a seat cover, and then the better seat
  for (std::size_t k = 0; k < job.faults.size(); ++k)
    CHECK((fix_of(job.faults[k], way[0].picks[k]) != nullptr) == job.faults[k].must);
  for (std::size_t i = 1; i < way.size(); ++i) CHECK(way[i].gain > way[i - 1].gain);
}

// Nothing costs but the fix itself: 200 come back for 200, or for 150 in two ways.
TEST_CASE("a fix that wins back just what it costs is left, and of two that win the same the first is made",
          "[appraisal]") {
  const auto chosen = [](const std::string& must, const std::string& fixes) -> std::string {
    const Job job = read_job(
        "[deal]\nasking = 900\n[value]\nsound = 3000\n[[cause]]\nname = \"gasket\"\nodds = "
        "1\n[[fault]]\nname = "
        "\"wing\"\ntakes_off = 200\n" +
            must + "fix = [" + fixes + "]\n",
        "pip.toml", Currency{});
    const FixChoice choice = best_fixes(job).choices[0];
    return choice.fix ? job.faults[0].fixes[*choice.fix].name : "left";
  };
  const auto fix = [](const std::string& name, int cash) {
    return "{ name = \"" + name + "\", source = \"repair\", restores = 1, cash = " + std::to_string(cash) +
           " }";
  };
  CHECK(chosen("", fix("one", 200)) == "left");
  CHECK(chosen("", fix("one", 199)) == "one");
  CHECK(chosen("must = true\n", fix("one", 250)) == "one");
  CHECK(chosen("", fix("one", 150) + ", " + fix("two", 150)) == "one");
  CHECK(chosen("", fix("one", 150) + ", " + fix("two", 149)) == "two");
  CHECK(chosen("must = true\n", fix("one", 250) + ", " + fix("two", 250)) == "one");
}

// 14 hours are a week, so that two are a day of the place, which could earn 50 otherwise.
TEST_CASE(
    "a day that the place could earn otherwise on moves where a part comes from and whether a fix is made",
    "[appraisal]") {
  const auto job_with = [](int bay) {
    return read_job(
        "[deal]\nasking = 900\n[shop]\nhour = 0\npace = 1\nhours_per_week = 14\nbay_per_day = " +
            std::to_string(bay) +
            "\n[value]\nsound = 3000\n[[cause]]\nname = \"gasket\"\nodds = 1\ncorrection = \"change\"\n"
            "[[correction]]\nname = \"change\"\nparts = [{ name = \"radiator\", qty = 1, new = 100, salvage "
            "= 60, "
            "pull_hours = 2 }]\n[[fault]]\nname = \"wing\"\ntakes_off = 200\nfix = [{ name = \"drawn\", "
            "source = "
            "\"repair\", cash = 160, hours = 2, restores = 1 }]\n",
        "pip.toml", Currency{});
  };
  const auto source = [](const Job& job) {
    return choose_source(job.corrections[0].parts[0], job.shop, 0, 0).source;
  };
  CHECK(source(job_with(39)) == Source::salvage);
  CHECK(source(job_with(41)) == Source::fresh);
  CHECK_THAT(best_fixes(job_with(39)).choices[0].gain, WithinAbs(1, 1e-9));
  CHECK_FALSE(best_fixes(job_with(41)).choices[0].fix);
}

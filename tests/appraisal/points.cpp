// At how many points cases are drawn, and that where unlikely ones are drawn at fewer the figures stay what they are
// with all of them.
#include "appraisal/points.h"

#include <bit>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "appraisal/jobs.h"
#include "appraisal/purse.h"
#include "words/appraise.h"
#include "words/appraise_json.h"

using namespace nonrunner;
using namespace nonrunner::appraisal;
using Catch::Matchers::WithinAbs;

namespace {

// Troubles unlike each other, so that cases are as likely as one in eighty and as unlikely as one in a hundred million.
std::string with_troubles(std::size_t count) {
  std::string text = small_job + "[[trouble]]\nname = \"trouble 0\"\nchance = 0.3\ncash = [60, 150, 400]\n";
  for (std::size_t i = 1; i < count; ++i)
    text += fmt::format(
        "[[trouble]]\nname = \"trouble {}\"\nchance = {}\ncash = [{}, {}, {}]\nhours = {}\ntakes_off = {}\n",
        i, 0.4 / static_cast<double>(1 << i), 40 + 10 * i, 150, 300 + 40 * i, i, 20 * i);
  return text;
}

void add_causes(Job& job, int count) {
  for (int i = 0; i < count; ++i) {
    Cause cause;
    cause.name = fmt::format("cause {}", i);
    cause.odds = 1 + i % 3;
    cause.found = Amount::constant(200 + 15 * i);
    cause.correction = 0;
    job.causes.push_back(cause);
    for (Test& test : job.tests)
      if (!test.trouble) test.given.push_back(test.given[0]);
  }
}

// A car that can go over 4,096 ways.
Job with_many_ways() {
  Job job = job_of(with_troubles(7));
  job.aims[Aim::loss_chance] = 0.3;
  job.sound = Amount{2200, 3000, 3600};
  job.tests.clear();
  add_causes(job, 16);
  return job;
}

}  // namespace

TEST_CASE("an unlikely case among very many is drawn at fewer points, all together at all of them",
          "[appraisal][points]") {
  const Job job = with_many_ways();
  const std::vector<double> chances = state_chances(job, posterior(job));
  const Points points(job, chances, points_min);
  REQUIRE(points.are_fewer());
  CHECK(points.all() == points_min);
  std::size_t before = points_min;
  for (const double chance : {1.0, 0.01, 1.0 / 2048, 1.0 / 4096, 1e-4, 1e-5, 1e-9, 0.0}) {
    INFO(chance);
    const Stretch stretch = points.of(chance, 0);
    CHECK(stretch.count <= before);
    before = stretch.count;
    CHECK(std::has_single_bit(stretch.count));
    CHECK(stretch.count >= Points::least);
    if (chance >= 1.0 / 2048) CHECK(stretch.count == points_min);
    std::vector<int> drawn(points_min, 0);
    for (std::size_t turn = 0; turn < points_min / stretch.count; ++turn) {
      const Stretch at = points.of(chance, turn);
      CHECK(at.first % stretch.count == 0);
      REQUIRE(at.first + at.count <= points_min);
      for (std::size_t i = 0; i < at.count; ++i) ++drawn[at.first + i];
    }
    CHECK(std::ranges::count(drawn, 1) == static_cast<std::ptrdiff_t>(points_min));
  }
  CHECK(before == Points::least);
  // Where more points are asked for, or there are fewer ways, all are drawn at all.
  CHECK_FALSE(Points(job, chances, 2 * points_min).are_fewer());
  const Job few = job_of(with_troubles(7));
  const Points all(few, state_chances(few, posterior(few)), points_min);
  CHECK_FALSE(all.are_fewer());
  CHECK(all.of(1e-9, 3).count == points_min);
  CHECK(all.of(1e-9, 3).first == 0);
}

TEST_CASE("with fewer points for unlikely cases the figures are those of all points", "[appraisal][points]") {
  const Job job = with_many_ways();
  const Appraisal fewer = appraised(job), full = appraised(job, std::size_t{1} << 22);
  REQUIRE(fewer.asked.risk.fewer);
  REQUIRE_FALSE(full.asked.risk.fewer);
  REQUIRE(fewer.asked.risk.points < full.asked.risk.points / 4);
  // By formula, and the same.
  CHECK(fewer.asked.expected.profit == full.asked.expected.profit);
  const double width = full.asked.risk.cash_profit[4] - full.asked.risk.cash_profit[0];
  REQUIRE(width > 500);
  CHECK_THAT(fewer.asked.risk.sampled_cash_profit, WithinAbs(fewer.asked.expected.cash_profit, width / 100));
  CHECK_THAT(fewer.asked.risk.sampled_profit, WithinAbs(fewer.asked.expected.profit, width / 100));
  // Of these, what the points are enough for.
  for (std::size_t i = 0; i < 5; ++i) {
    INFO(i);
    CHECK_THAT(fewer.asked.risk.cash_profit[i], WithinAbs(full.asked.risk.cash_profit[i], width / 50));
    CHECK_THAT(fewer.asked.risk.profit[i], WithinAbs(full.asked.risk.profit[i], width / 50));
  }
  CHECK_THAT(fewer.asked.cash_needed.p95, WithinAbs(full.asked.cash_needed.p95, width / 50));
  CHECK_THAT(fewer.asked.risk.loss_chance, WithinAbs(full.asked.risk.loss_chance, 0.01));
  REQUIRE(fewer.walk_away.by[Aim::loss_chance]);
  REQUIRE(full.walk_away.by[Aim::loss_chance]);
  CHECK_THAT(*fewer.walk_away.by[Aim::loss_chance],
             WithinAbs(*full.walk_away.by[Aim::loss_chance], width / 50));
  const SoundValue sound = sound_value_of(job);
  const auto from_few = from_purse(job, sound, 300, points_default);
  const auto from_all = from_purse(job, sound, 300, std::size_t{1} << 22);
  REQUIRE(from_few);
  REQUIRE(from_all);
  for (std::size_t i = 0; i < from_all->cash_steps.size(); i += 50) {
    INFO(i);
    CHECK_THAT(from_few->cash_steps[i], WithinAbs(from_all->cash_steps[i], width / 25));
    CHECK_THAT(from_few->hours_steps[i], WithinAbs(from_all->hours_steps[i], 1));
  }
}

TEST_CASE("that unlikely ways are drawn at fewer points is said", "[appraisal][points]") {
  const auto said = [](const Appraisal& a) {
    std::string all;
    for (const std::string& each : words::AppraisalInWords(a, false).reasons()) all += each + "\n";
    return all;
  };
  const Appraisal few = appraised(job_of(with_troubles(7)), 8192);
  CHECK_FALSE(few.to_pay.risk.fewer);
  CHECK(said(few).find("rests on") == std::string::npos);
  CHECK(words::to_json(few).find("fewer_points") == std::string::npos);
  const Appraisal many = appraised(with_many_ways(), 8192);
  REQUIRE(many.to_pay.risk.fewer);
  const std::size_t ways = many.to_pay.risk.fewer->ways;
  REQUIRE(ways > 1000);
  REQUIRE(ways < 1'000'000);
  CHECK(
      said(many).find(fmt::format("It can go {},{:03} ways: how the outcome spreads rests on 64 points for a "
                                  "likely one, on 2 at the least for an unlikely one.\n",
                                  ways / 1000, ways % 1000)) != std::string::npos);
  CHECK(nlohmann::json::parse(words::to_json(many))["to_pay"]["risk"]["fewer_points"] ==
        nlohmann::json({{"ways", ways}, {"least_of_a_way", 2}, {"most_of_a_way", 64}}));
}

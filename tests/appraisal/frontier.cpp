#include "appraisal/frontier.h"

#include <catch2/catch.hpp>
#include <random>

#include "appraisal/all_sets.h"
#include "appraisal/knapsack.h"
#include "appraisal/random_classes.h"

using namespace nonrunner::appraisal;
using Catch::Matchers::WithinAbs;

TEST_CASE("at every budget of hours the frontier has the best of all subsets", "[appraisal]") {
  std::mt19937 random(42);
  for (int round = 0; round < 300; ++round) {
    const auto classes = random_classes(random, 1 + random() % 5, round % 2 == 0);
    std::optional<double> cash;
    if (round % 3 == 0) cash = static_cast<double>(random() % 600);
    const auto front = frontier(classes, cash);
    for (std::size_t i = 1; i < front.size(); ++i) {
      CHECK(front[i].hours > front[i - 1].hours);
      CHECK(front[i].gain > front[i - 1].gain);
    }
    for (double hours = 0; hours < 20; hours += 0.5) {
      std::optional<double> best;
      for_all_sets(classes, [&](const ChoiceSet& set) {
        if (set.hours <= hours + 1e-9 && (!cash || set.cash <= *cash + 1e-6) && (!best || set.gain > *best))
          best = set.gain;
      });
      const ChoiceSet* at = at_budget(front, hours);
      INFO("round " << round << ", hours " << hours);
      REQUIRE((at != nullptr) == best.has_value());
      if (at) CHECK_THAT(at->gain, WithinAbs(*best, 1e-9));
      if (at && cash) CHECK(at->cash <= *cash + 1e-6);
    }
  }
}

TEST_CASE("each step of the way earns less an hour than the one before, and none is missed", "[appraisal]") {
  std::mt19937 random(9);
  for (int round = 0; round < 100; ++round) {
    const auto classes = random_classes(random, 8, round % 2 == 0);
    const auto front = frontier(classes, std::nullopt);
    const auto way = steps(front);
    REQUIRE_FALSE(way.empty());
    CHECK(way.front().gain == front.front().gain);
    CHECK(way.back().gain == front.back().gain);
    for (std::size_t i = 2; i < way.size(); ++i)
      CHECK(per_hour(way[i - 2], way[i - 1]) > per_hour(way[i - 1], way[i]));
    // No set of the frontier lies above the line from step to step.
    for (const ChoiceSet& set : front)
      for (std::size_t i = 1; i < way.size(); ++i)
        if (set.hours >= way[i - 1].hours && set.hours <= way[i].hours)
          CHECK(set.gain <=
                way[i - 1].gain + per_hour(way[i - 1], way[i]) * (set.hours - way[i - 1].hours) + 1e-9);
    // Without a limit on cash a step changes one fault and undoes none.
    for (std::size_t i = 1; i < way.size(); ++i) {
      std::size_t changed = 0;
      for (std::size_t k = 0; k < classes.size(); ++k) {
        if (way[i].picks[k] == way[i - 1].picks[k]) continue;
        ++changed;
        CHECK(classes[k].choices[way[i].picks[k]].gain > classes[k].choices[way[i - 1].picks[k]].gain);
      }
      CHECK(changed == 1);
    }
  }
}

TEST_CASE("the frontier is where the knapsack says", "[appraisal]") {
  std::mt19937 random(13);
  const auto classes = random_classes(random, 14, true);
  const auto front = frontier(classes, 900.0);
  REQUIRE(front.size() > 5);
  for (const ChoiceSet& set : front) {
    const Knapsack at = best_set(classes, {set.hours, 900.0});
    REQUIRE(at.best);
    CHECK_THAT(at.best->gain, WithinAbs(set.gain, 1e-9));
    CHECK_THAT(at.best->hours, WithinAbs(set.hours, 1e-9));
  }
}

TEST_CASE("a limit on cash that what must be put right exceeds leaves no frontier", "[appraisal]") {
  CHECK(frontier({{"brakes", {{"new", 2, 120, -5}}}}, 100.0).empty());
  const auto front = frontier({{"brakes", {{"new", 2, 120, -5}}}}, 120.0);
  REQUIRE(front.size() == 1);
  CHECK(at_budget(front, 1.9) == nullptr);
  CHECK(at_budget(front, 2.0)->gain == -5);
}

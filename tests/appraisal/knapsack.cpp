#include "appraisal/knapsack.h"

#include <catch2/catch.hpp>
#include <random>

#include "appraisal/all_sets.h"
#include "appraisal/random_classes.h"

using namespace nonrunner::appraisal;
using Catch::Matchers::WithinAbs;

TEST_CASE("on small sets of faults the best set is the best of all subsets", "[appraisal]") {
  std::mt19937 random(20250301);
  int without_answer = 0;
  for (int round = 0; round < 2000; ++round) {
    const std::vector<ChoiceClass> classes = random_classes(random, 1 + random() % 6, round % 2 == 0);
    Limits limits;
    if (round % 3 != 0) limits.hours = static_cast<double>(random() % 16);
    if (round % 5 != 0) limits.cash = static_cast<double>(random() % 700);
    const Knapsack found = best_set(classes, limits);
    std::optional<ChoiceSet> best;
    for_all_sets(classes, [&](const ChoiceSet& set) {
      if (limits.hours && set.hours > *limits.hours + 1e-9) return;
      if (limits.cash && set.cash > *limits.cash + 1e-6) return;
      if (!best || set.gain > best->gain) best = set;
    });
    INFO("round " << round);
    REQUIRE(found.best.has_value() == best.has_value());
    if (!best) {
      ++without_answer;
      continue;
    }
    CHECK_THAT(found.best->gain, WithinAbs(best->gain, 1e-9));
    ChoiceSet counted;
    for (std::size_t k = 0; k < classes.size(); ++k) {
      const Choice& choice = classes[k].choices.at(found.best->picks[k]);
      counted.hours += choice.hours, counted.cash += choice.cash, counted.gain += choice.gain;
    }
    CHECK_THAT(found.best->hours, WithinAbs(counted.hours, 1e-9));
    CHECK_THAT(found.best->cash, WithinAbs(counted.cash, 1e-9));
    CHECK_THAT(found.best->gain, WithinAbs(counted.gain, 1e-9));
  }
  CHECK(without_answer > 50);  // both ends of the test were reached
}

TEST_CASE("without limits each fault takes its best choice", "[appraisal]") {
  std::mt19937 random(5);
  for (int round = 0; round < 50; ++round) {
    const auto classes = random_classes(random, 12, false);
    double sum = 0;
    for (const ChoiceClass& one : classes) {
      double best = one.choices[0].gain;
      for (const Choice& choice : one.choices) best = std::max(best, choice.gain);
      sum += best;
    }
    CHECK_THAT(best_set(classes, {}).best->gain, WithinAbs(sum, 1e-9));
  }
}

TEST_CASE("of equal gains the set with fewer hours is taken, then with less cash", "[appraisal]") {
  const std::vector<ChoiceClass> classes = {
      {"a", {{"slow", 3, 10, 50}, {"quick", 1, 90, 50}, {"quick and cheap", 1, 40, 50}}}};
  CHECK(best_set(classes, {}).best->picks[0] == 2);
  CHECK(best_set(classes, {4, 500}).best->picks[0] == 2);
  CHECK(best_set(classes, {std::nullopt, 20}).best->picks[0] == 0);
}

TEST_CASE("a limit met exactly is kept, whatever binary fractions make of the sum", "[appraisal]") {
  std::vector<ChoiceClass> classes;
  for (int i = 0; i < 3; ++i) classes.push_back({"", {{"leave", 0, 0, 0}, {"fix", 0.1, 0.1, 1}}});
  CHECK(best_set(classes, {0.3, 0.3}).best->gain == 3);  // 0.1 + 0.1 + 0.1 > 0.3 in binary
}

TEST_CASE("limits that each could be kept but not both together have no answer", "[appraisal]") {
  const std::vector<ChoiceClass> must = {{"brakes", {{"at home", 4, 50, 0}, {"outside", 0.5, 220, 0}}}};
  const Knapsack found = best_set(must, {2, 100});
  CHECK_FALSE(found.best);
  CHECK(found.least_hours == 0.5);
  CHECK(found.least_cash == 50);
}

TEST_CASE("forty faults with three fixes each and both limits are answered", "[appraisal]") {
  std::mt19937 random(77);
  const auto classes = random_classes(random, 40, false);
  const Knapsack free = best_set(classes, {});
  for (const double share : {0.1, 0.3, 0.5, 0.8}) {
    const Knapsack found = best_set(classes, {free.best->hours * share, free.best->cash * share});
    REQUIRE(found.best);
    CHECK(found.best->gain > 0);
    CHECK(found.best->gain <= free.best->gain);
  }
}

// Knapsacks with published optima. In a 0/1 knapsack each item is a class of two: leave it, or take it.
// Weights stand for hours, then again for cash.
#include "appraisal/knapsack.h"

#include <catch2/catch.hpp>

using namespace nonrunner::appraisal;
using Picks = std::vector<std::size_t>;

namespace {

using Pairs = std::vector<std::pair<double, double>>;  // weight, profit

std::vector<ChoiceClass> classes_of(const std::vector<Pairs>& all, bool as_cash) {
  std::vector<ChoiceClass> classes;
  for (const Pairs& pairs : all) {
    ChoiceClass one;
    for (const auto& [weight, profit] : pairs)
      one.choices.push_back({"", as_cash ? 0 : weight, as_cash ? weight : 0, profit});
    classes.push_back(one);
  }
  return classes;
}

Knapsack solve(const std::vector<Pairs>& all, double capacity, bool as_cash) {
  return best_set(classes_of(all, as_cash),
                  as_cash ? Limits{std::nullopt, capacity} : Limits{capacity, std::nullopt});
}

}  // namespace

// J. Burkardt, KNAPSACK_01 data sets P01, P03, P05, P07 (after Kreher and Stinson, Combinatorial Algorithms,
// 1999, and others): optimum read there; the selections are unique (full enumeration).
TEST_CASE("published 0/1 knapsacks have their published optima", "[appraisal][outside]") {
  struct Case {
    double capacity;
    std::vector<double> weights, profits;
    double optimum, weight;
    Picks selection;
  };
  const std::vector<Case> cases = {
      {165,
       {23, 31, 29, 44, 53, 38, 63, 85, 89, 82},
       {92, 57, 49, 68, 60, 43, 67, 84, 87, 72},
       309,
       165,
       {1, 1, 1, 1, 0, 1, 0, 0, 0, 0}},
      {190, {56, 59, 80, 64, 75, 17}, {50, 50, 64, 46, 50, 5}, 150, 190, {1, 1, 0, 0, 1, 0}},
      {104,
       {25, 35, 45, 5, 25, 3, 2, 2},
       {350, 400, 450, 20, 70, 8, 5, 5},
       900,
       104,
       {1, 0, 1, 1, 1, 0, 1, 1}},
      {750,
       {70, 73, 77, 80, 82, 87, 90, 94, 98, 106, 110, 113, 115, 118, 120},
       {135, 139, 149, 150, 156, 163, 173, 184, 192, 201, 210, 214, 221, 229, 240},
       1458,
       749,
       {1, 0, 1, 0, 1, 0, 1, 1, 1, 0, 0, 0, 0, 1, 1}}};
  for (const Case& each : cases) {
    std::vector<Pairs> items;
    for (std::size_t i = 0; i < each.weights.size(); ++i)
      items.push_back({{0, 0}, {each.weights[i], each.profits[i]}});
    for (const bool as_cash : {false, true}) {
      const Knapsack found = solve(items, each.capacity, as_cash);
      REQUIRE(found.best);
      CHECK(found.best->gain == each.optimum);
      CHECK((as_cash ? found.best->cash : found.best->hours) == each.weight);
      CHECK(found.best->picks == each.selection);
    }
  }
}

// M. Trick, A Tutorial on Dynamic Programming: capital budgeting, 5 million over three plants (table and the
// optimum of 18 from memory). Two optima.
TEST_CASE("three plants share five million", "[appraisal][outside]") {
  const Knapsack found =
      solve({{{0, 0}, {1, 5}, {2, 6}}, {{0, 0}, {2, 8}, {3, 9}, {4, 12}}, {{0, 0}, {1, 4}}}, 5, true);
  REQUIRE(found.best);
  CHECK(found.best->gain == 18);
  CHECK((found.best->picks == Picks{1, 2, 1} || found.best->picks == Picks{2, 1, 1}));
}

// Made up; optima by full enumeration.
TEST_CASE("six faults with two ways each, a fault that must be put right, and one that cannot be",
          "[appraisal]") {
  const Knapsack six = solve({{{0, 0}, {55, 114}, {180, 120}},
                              {{0, 0}, {40, -5}, {95, 60}},
                              {{0, 0}, {210, 260}, {330, 285}},
                              {{0, 0}, {150, 90}, {60, 35}},
                              {{0, 0}, {300, 310}, {480, 400}},
                              {{0, 0}, {20, 25}, {75, 26}}},
                             900, true);
  REQUIRE(six.best);
  CHECK(six.best->gain == 869);
  CHECK(six.best->picks == Picks{1, 2, 1, 2, 2, 0});
  CHECK(six.best->cash == 900);

  const Knapsack must = solve({{{120, -40}, {180, -10}}, {{0, 0}, {80, 70}, {60, 50}}}, 200, true);
  REQUIRE(must.best);
  CHECK(must.best->gain == 30);
  CHECK(must.best->picks == Picks{0, 1});

  const Knapsack never = solve({{{120, -40}, {180, -10}}, {{0, 0}, {80, 70}}}, 100, true);
  CHECK_FALSE(never.best);
  CHECK(never.least_cash == 120);
}

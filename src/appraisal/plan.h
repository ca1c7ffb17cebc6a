// What to do before buying: the exact roll-back over every order of the tests that can still be made.
//
// All values are above the profit aimed at: buying under an offer is worth its expected profit less
// aims.profit, walking away 0. At each state of knowledge the best of walking away, buying under the best
// offer, or making one more test at its cost (cash, and own hours x pace at the shop's hour) and going on.
// Where two are equal: walk away before buying, buying before testing, the earlier test.
//
// Growth: the states of knowledge are the outcomes of the tests made, in whatever order, so there are
// (k1 + 1)(k2 + 1)... of them for tests of k1, k2, ... outcomes: 8 tests of 3 outcomes give 65,536. Each is
// worked out once, at a cost of causes x 2^(troubles that some test is about) x offers. Beyond
// `knowledge_max` states or `work_max` sums the plan is refused with a message that says what to leave out.
// Known to be right against complete enumeration (tests/appraisal/plan.cpp) and published problems
// (tests/outside).
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "appraisal/evidence.h"
#include "appraisal/job.h"
#include "appraisal/outlook.h"

namespace nonrunner::appraisal {

constexpr double knowledge_max = 4.2e6;
constexpr double work_max = 1.5e9;

struct TestWorth {
  std::size_t test = 0;  // place in the job
  double cost = 0;
  double gross = 0;  // best plan that may make this test alone, its cost put back, less deciding now
  double net = 0;    // gross - cost
};

enum class Do { walk_away, buy, test };

// What the best plan does at one state of knowledge, and at those after it.
struct PlanStep {
  Do act = Do::walk_away;
  std::size_t which = 0;  // the offer (0 is the plain one) or the test
  double worth = 0;
  struct Branch {
    std::size_t outcome = 0;
    double chance = 0;
    std::vector<PlanStep> step;  // one; none where the plan goes on beyond what is shown
  };
  std::vector<Branch> branches;  // outcomes that have a chance
};

struct Plan {
  double decide_now = 0;
  double best = 0;
  double perfect_information = 0;
  std::vector<TestWorth> tests;  // of those still to make, in the order of the file
  PlanStep steps;                // down to `depth` tests
};

// `offers`: the plain one first, each with its states. `depth`: how many tests deep `steps` goes.
// Throws Refusal where the roll-back would grow beyond the bounds above.
struct OfferStates {
  double price = 0;
  const States* states = nullptr;
};
Plan plan_of(const Job&, const std::vector<OfferStates>& offers, const Beliefs&, int depth = 6);

double cost_of(const Test&, const Shop&);

}  // namespace nonrunner::appraisal

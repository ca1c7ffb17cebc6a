// What to do before buying: the exact roll-back over every order of the tests that can still be made, at one
// price of the plain offer.
//
// All values are above the profit aimed at. At each state of knowledge the best of
//   walking away   0
//   buying         under the offer that is worth most of those allowed: the most profitable policy that holds
//                  all aims (appraisal/buying.h), its expected profit less aims.profit
//   a test more    less its cost (cash, and own hours x pace at the shop's hour), and where nobody else has
//                  bought meanwhile (`gone`) what is known then
// Where two are equal: buying before walking away, and both before testing; the earlier test. What tests have
// cost is sunk for the purchase that follows.
//
// Growth: the states of knowledge are the outcomes of the tests made, in whatever order, so there are
// (k1 + 1)(k2 + 1)... of them for tests of k1, k2, ... outcomes: 8 tests of 3 outcomes give 65,536. Each is worked
// out only where something better could still come of it (appraisal/roll_back.h). Chances of causes and of
// troubles are kept apart; what an offer brings is averaged over the troubles beforehand (appraisal/knowledge.h).
// Where the most profitable policy does not hold the aims another is looked for as hold.h says, or, where cases and
// states are many, among some policies chosen beforehand: then the plan is not exact. Beyond `knowledge_max` states
// or `work_max` sums the plan is refused with a message that says what to leave out.
// Known to be right against complete enumeration (tests/appraisal/plan.cpp) and published problems
// (tests/outside).
#pragma once
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "appraisal/buying.h"
#include "appraisal/evidence.h"
#include "appraisal/job.h"
#include "appraisal/knowledge.h"

namespace nonrunner::appraisal {

constexpr double knowledge_max = 4.2e6;
constexpr double work_max = 1.5e9;

struct TestWorth {
  std::size_t test = 0;  // place in the job
  double cost = 0;
  // Best plan that may make this test alone, its cost put back, less deciding now. Below zero where an aim
  // would bar after it what is allowed unseen.
  double gross = 0;
  double net = 0;  // gross - cost
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
  double price = 0;  // of the plain offer
  double decide_now = 0;
  double best = 0;
  bool exact = true;               // false: the plan is worth `best` or more
  double perfect_information = 0;  // by the aim for profit alone
  std::vector<TestWorth> tests;    // of those still to make, in the order of the file
  // Down to `depth` tests. Where the plan gains less than a test must gain, what is done without.
  PlanStep steps;
  double gain() const { return best - decide_now; }
  bool begins_with_test() const { return steps.act == Do::test; }
};

// The offers as they stand, the plain one first.
struct OfferAt {
  Buying* buying = nullptr;
  double price = 0;
};

struct PlanValues {
  double decide_now = 0, best = 0;
  double gain() const { return best - decide_now; }
};

class RollBack;

// The plans from what is believed now on, at any price of the plain offer. What was rolled back at a price is kept for a
// while, since several questions are asked at the same one.
class Planning {
 public:
  // Keeps references to the job and to what the offers name. Whoever asks for a plan gets a Refusal where the roll-back
  // would grow beyond the bounds above.
  Planning(const Job&, std::vector<OfferAt>, const Beliefs&);
  ~Planning();

  Plan plan(double price, int depth = 6);
  PlanValues values(double price);
  PlanValues values_without_plain();  // the plain offer is not to be had
  // Whether the plan gains over deciding now what a test must gain: mostly told without rolling back.
  bool gains_enough(double price);

  RollBack& at(double price);  // stands until it is asked at another price
  const Job& job() const { return job_; }
  const std::vector<OfferAt>& offers() const { return offers_; }

 private:
  const Job& job_;
  std::vector<OfferAt> offers_;
  Beliefs beliefs_;
  Knowledge knowledge_;
  std::map<double, std::unique_ptr<RollBack>> at_;
};

double cost_of(const Test&, const Shop&);

}  // namespace nonrunner::appraisal

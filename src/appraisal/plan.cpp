#include "appraisal/plan.h"

#include <algorithm>

#include "appraisal/roll_back.h"

namespace nonrunner::appraisal {

double cost_of(const Test& test, const Shop& shop) {
  return test.cash.mean() + test.hours.mean() * shop.pace.mean() * shop.hour;
}

namespace {

double perfect(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs) {
  const std::vector<double> chances = state_chances(job, beliefs);
  double sum = 0;
  for (std::size_t s = 0; s < chances.size(); ++s) {
    if (chances[s] == 0) continue;
    double best = 0;
    for (const OfferAt& offer : offers)
      best = std::max(best, offer.buying->by_profit(offer.price)[s].profit - job.aims.profit());
    sum += chances[s] * best;
  }
  return sum;
}

// What deciding now is worth by the aim for profit alone.
double decided_by_profit(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs) {
  const std::vector<double> chances = state_chances(job, beliefs);
  double best = 0;
  for (const OfferAt& offer : offers) {
    double sum = 0;
    for (std::size_t s = 0; s < chances.size(); ++s)
      if (chances[s] > 0)
        sum += chances[s] * (offer.buying->by_profit(offer.price)[s].profit - job.aims.profit());
    best = std::max(best, sum);
  }
  return best;
}

}  // namespace

Planning::Planning(const Job& job, std::vector<OfferAt> offers, const Beliefs& beliefs)
    : job_(job), offers_(std::move(offers)), beliefs_(beliefs), knowledge_(job, beliefs) {}

Planning::~Planning() = default;

RollBack& Planning::at(double price) {
  auto& known = at_[price];
  if (known) return *known;
  // Each has some numbers for every state of knowledge.
  constexpr std::size_t numbers = 400'000;
  if (at_.size() * knowledge_.places() > numbers)
    std::erase_if(at_, [&](const auto& each) { return each.first != price; });
  std::vector<OfferAt> offers = offers_;
  offers.front().price = price;
  auto& made = at_[price];
  made = std::make_unique<RollBack>(job_, std::move(offers), knowledge_);
  return *made;
}

Plan Planning::plan(double price, int depth) {
  RollBack& roll_back = at(price);
  std::vector<OfferAt> offers = offers_;
  offers.front().price = price;
  Plan plan;
  plan.price = price;
  plan.decide_now = roll_back.decide();
  plan.best = roll_back.best();
  plan.perfect_information = perfect(job_, offers, beliefs_) - decided_by_profit(job_, offers, beliefs_);
  for (std::size_t i = 0; i < roll_back.tests().size(); ++i) {
    TestWorth worth{roll_back.tests()[i], roll_back.cost(i), 0, 0};
    worth.gross = roll_back.decided_after(i) - plan.decide_now;
    worth.net = worth.gross - worth.cost;
    plan.tests.push_back(worth);
  }
  plan.exact = roll_back.is_exact();
  plan.steps = plan.gain() >= least_gain_of_a_test(job_) ? roll_back.steps(depth) : roll_back.decided();
  return plan;
}

PlanValues Planning::values(double price) {
  RollBack& roll_back = at(price);
  return {roll_back.decide(), roll_back.best()};
}

PlanValues Planning::values_without_plain() {
  RollBack roll_back(job_, std::vector(offers_.begin() + 1, offers_.end()), knowledge_);
  return {roll_back.decide(), roll_back.best()};
}

bool Planning::gains_enough(double price) { return at(price).gains_enough(); }

}  // namespace nonrunner::appraisal

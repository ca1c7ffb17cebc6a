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
      best = std::max(best, offer.buying->firsts(offer.price)[s].profit - job.aims.profit());
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
        sum += chances[s] * (offer.buying->firsts(offer.price)[s].profit - job.aims.profit());
    best = std::max(best, sum);
  }
  return best;
}

}  // namespace

Plan plan_of(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs, int depth) {
  RollBack roll_back(job, offers, beliefs);
  Plan plan;
  plan.price = offers.front().price;
  plan.decide_now = roll_back.decide();
  plan.best = roll_back.best();
  plan.perfect_information = perfect(job, offers, beliefs) - decided_by_profit(job, offers, beliefs);
  for (std::size_t i = 0; i < roll_back.tests().size(); ++i) {
    TestWorth worth{roll_back.tests()[i], roll_back.cost(i), 0, 0};
    worth.gross = roll_back.decided_after(i) - plan.decide_now;
    worth.net = worth.gross - worth.cost;
    plan.tests.push_back(worth);
  }
  plan.exact = roll_back.is_exact();
  plan.steps = plan.gain() >= least_gain_of_a_test(job) ? roll_back.steps(depth) : roll_back.decided();
  return plan;
}

std::vector<OfferAt> with_plain_at(std::vector<OfferAt> offers, double price) {
  offers.front().price = price;
  return offers;
}

PlanValues plan_values(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs,
                       std::optional<double> plain_price) {
  const std::vector<OfferAt> at =
      plain_price ? with_plain_at(offers, *plain_price) : std::vector(offers.begin() + 1, offers.end());
  RollBack roll_back(job, at, beliefs);
  return {roll_back.decide(), roll_back.best()};
}

bool gains_enough(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs,
                  double plain_price) {
  const std::vector<OfferAt> at = with_plain_at(offers, plain_price);
  return RollBack(job, at, beliefs).gains_enough();
}

}  // namespace nonrunner::appraisal

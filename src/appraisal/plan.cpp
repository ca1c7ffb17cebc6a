#include "appraisal/plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "exact/ends.h"

namespace nonrunner::appraisal {

double cost_of(const Test& test, const Shop& shop) {
  return test.cash.mean() + test.hours.mean() * shop.pace.mean() * shop.hour;
}

namespace {

constexpr double nothing_gained = 1e-9;  // a test must earn more than what rounding may pretend

// Chances below are those of the evidence and the state together ("joint"), so nothing is divided on the way;
// worths are multiplied by the chance of the evidence in the same way.
class RollBack {
 public:
  RollBack(const Job& job, const std::vector<OfferStates>& offers, const Beliefs& beliefs)
      : job_(job), beliefs_(beliefs) {
    for (std::size_t t = 0; t < job.tests.size(); ++t)
      if (still_to_make(job.tests[t])) tests_.push_back(t);
    find_tested_troubles();
    check_size(offers.size());
    for (const OfferStates& offer : offers) worth_.push_back(averaged(offer));
    std::size_t size = 1;
    for (const std::size_t t : tests_) {
      stride_.push_back(size);
      size *= job.tests[t].outcomes.size() + 1;
      cost_.push_back(cost_of(job.tests[t], job.shop));
    }
    value_.resize(size);
    act_.resize(size);
    // A further outcome known makes the place greater, so the places from the last to the first are in order.
    for (std::size_t place = size; place-- > 0;) work_out(place);
  }

  const std::vector<std::size_t>& tests() const { return tests_; }
  double best() const { return value_[0]; }
  double cost(std::size_t i) const { return cost_[i]; }

  double decide(std::size_t place) {
    weigh(place);
    return std::max(0.0, best_offer().second);
  }
  double decided_after(std::size_t i) {
    double sum = 0;
    for (std::size_t outcome = 0; outcome < outcomes(i); ++outcome) sum += decide(stride_[i] * (outcome + 1));
    return sum;
  }

  PlanStep step(std::size_t place, int depth) {
    weigh(place);
    const double chance = total_;
    PlanStep step;
    step.worth = value_[place] / chance;
    const std::int32_t act = act_[place];
    if (act == walk) return step;
    if (act < 0) {
      step.act = Do::buy;
      step.which = static_cast<std::size_t>(-act - 2);
      return step;
    }
    const auto i = static_cast<std::size_t>(act);
    step.act = Do::test;
    step.which = tests_[i];
    for (std::size_t outcome = 0; outcome < outcomes(i); ++outcome) {
      const std::size_t next = place + stride_[i] * (outcome + 1);
      weigh(next);
      if (!(total_ > 0)) continue;
      PlanStep::Branch branch{outcome, total_ / chance, {}};
      if (depth > 0) branch.step.push_back(this->step(next, depth - 1));
      step.branches.push_back(std::move(branch));
    }
    return step;
  }

 private:
  static constexpr std::int32_t walk = -1;  // -2 - k: buy under offer k; 0 and more: the test

  std::size_t outcomes(std::size_t i) const { return job_.tests[tests_[i]].outcomes.size(); }

  void find_tested_troubles() {
    for (const std::size_t t : tests_)
      if (const auto about = job_.tests[t].trouble)
        if (std::find(tested_.begin(), tested_.end(), *about) == tested_.end()) tested_.push_back(*about);
  }

  void check_size(std::size_t offers) const {
    double knowledge = 1;
    for (const std::size_t t : tests_) knowledge *= static_cast<double>(job_.tests[t].outcomes.size() + 1);
    const double each = static_cast<double>(job_.causes.size()) *
                        std::ldexp(1.0, static_cast<int>(tested_.size())) * static_cast<double>(offers);
    if (knowledge <= knowledge_max && knowledge * each <= work_max) return;
    throw Refusal(fmt::format(
        "{}: {} tests still to make give {:.0f} states of knowledge, each with {:.0f} to weigh, expected at "
        "most {:.0f} "
        "states and {:.0f} together; leave out the tests that tell least, or mark them spoiled = true",
        job_.vehicle.tag, tests_.size(), knowledge, each, knowledge_max, work_max));
  }

  // What buying under the offer is worth above the aim for each cause and set of tested troubles; the
  // troubles that no test is about are averaged out, since nothing will be learned about them.
  std::vector<double> averaged(const OfferStates& offer) const {
    const std::size_t sets = std::size_t{1} << tested_.size();
    std::vector<double> worth(job_.causes.size() * sets, 0.0);
    const double opening = job_.opening_up.cash.mean();
    const unsigned masks = 1u << job_.troubles.size();
    for (unsigned present = 0; present < masks; ++present) {
      double chance = 1;
      std::size_t set = 0;
      for (std::size_t j = 0; j < job_.troubles.size(); ++j) {
        const auto tested = std::find(tested_.begin(), tested_.end(), j);
        const bool is_present = present >> j & 1u;
        if (tested == tested_.end())
          chance *= is_present ? beliefs_.trouble[j] : 1 - beliefs_.trouble[j];
        else if (is_present)
          set |= std::size_t{1} << (tested - tested_.begin());
      }
      if (chance == 0) continue;
      for (std::size_t c = 0; c < job_.causes.size(); ++c) {
        const CourseFigures& f = offer.states->at(c, present).figures;
        worth[c * sets + set] += chance * (f.cash - f.own_hours * job_.shop.hour - opening -
                                           purchase(job_, offer.price, f.days) - job_.aims.profit);
      }
    }
    return worth;
  }

  // The joint chances of what `place` says was seen, with each cause and each set of tested troubles.
  void weigh(std::size_t place) {
    by_cause_ = beliefs_.cause;
    present_.clear();
    absent_.clear();
    for (const std::size_t j : tested_) {
      present_.push_back(beliefs_.trouble[j]);
      absent_.push_back(1 - beliefs_.trouble[j]);
    }
    for (std::size_t i = 0; i < tests_.size(); ++i) {
      const std::size_t seen = place / stride_[i] % (outcomes(i) + 1);
      if (seen == 0) continue;
      const Test& test = job_.tests[tests_[i]];
      if (!test.trouble) {
        for (std::size_t c = 0; c < by_cause_.size(); ++c) by_cause_[c] *= test.given[c][seen - 1];
        continue;
      }
      const auto j = static_cast<std::size_t>(std::find(tested_.begin(), tested_.end(), *test.trouble) -
                                              tested_.begin());
      present_[j] *= test.given[0][seen - 1];
      absent_[j] *= test.given[1][seen - 1];
    }
    by_set_.assign(1, 1.0);
    for (std::size_t j = 0; j < tested_.size(); ++j) {
      const std::size_t half = by_set_.size();
      by_set_.resize(2 * half);
      for (std::size_t s = 0; s < half; ++s) {
        by_set_[half + s] = by_set_[s] * present_[j];
        by_set_[s] *= absent_[j];
      }
    }
    double causes = 0, sets = 0;
    for (const double chance : by_cause_) causes += chance;
    for (const double chance : by_set_) sets += chance;
    total_ = causes * sets;
  }

  std::pair<std::size_t, double> best_offer() const {
    std::pair<std::size_t, double> best{0, 0};
    for (std::size_t k = 0; k < worth_.size(); ++k) {
      double sum = 0;
      const double* worth = worth_[k].data();
      for (const double cause : by_cause_) {
        double of_cause = 0;
        for (const double set : by_set_) of_cause += set * *worth++;
        sum += cause * of_cause;
      }
      if (k == 0 || sum > best.second) best = {k, sum};
    }
    return best;
  }

  void work_out(std::size_t place) {
    weigh(place);
    double best = 0;
    std::int32_t act = walk;
    const auto [offer, bought] = best_offer();
    if (bought > best) {
      best = bought;
      act = -2 - static_cast<std::int32_t>(offer);
    }
    for (std::size_t i = 0; i < tests_.size(); ++i) {
      if (place / stride_[i] % (outcomes(i) + 1) != 0) continue;
      double sum = -cost_[i] * total_;
      for (std::size_t outcome = 0; outcome < outcomes(i); ++outcome)
        sum += value_[place + stride_[i] * (outcome + 1)];
      if (sum <= best + nothing_gained * total_) continue;
      best = sum;
      act = static_cast<std::int32_t>(i);
    }
    value_[place] = best;
    act_[place] = act;
  }

  const Job& job_;
  const Beliefs& beliefs_;
  std::vector<std::size_t> tests_, tested_, stride_;
  std::vector<std::vector<double>> worth_;  // by offer
  std::vector<double> cost_, value_;
  std::vector<std::int32_t> act_;
  std::vector<double> by_cause_, by_set_, present_, absent_;
  double total_ = 0;
};

double perfect(const Job& job, const std::vector<OfferStates>& offers, const Beliefs& beliefs) {
  const std::vector<double> chances = state_chances(job, beliefs);
  double sum = 0;
  for (std::size_t s = 0; s < chances.size(); ++s) {
    double best = 0;
    for (const OfferStates& offer : offers) {
      const CourseFigures& f = offer.states->best[s].figures;
      best = std::max(best, f.cash - f.own_hours * job.shop.hour - job.opening_up.cash.mean() -
                                purchase(job, offer.price, f.days) - job.aims.profit);
    }
    sum += chances[s] * best;
  }
  return sum;
}

}  // namespace

Plan plan_of(const Job& job, const std::vector<OfferStates>& offers, const Beliefs& beliefs, int depth) {
  RollBack roll_back(job, offers, beliefs);
  Plan plan;
  plan.decide_now = roll_back.decide(0);
  plan.best = roll_back.best();
  plan.perfect_information = perfect(job, offers, beliefs) - plan.decide_now;
  for (std::size_t i = 0; i < roll_back.tests().size(); ++i) {
    TestWorth worth{roll_back.tests()[i], roll_back.cost(i), 0, 0};
    worth.gross = roll_back.decided_after(i) - plan.decide_now;
    worth.net = worth.gross - worth.cost;
    plan.tests.push_back(worth);
  }
  plan.steps = roll_back.step(0, depth);
  return plan;
}

}  // namespace nonrunner::appraisal

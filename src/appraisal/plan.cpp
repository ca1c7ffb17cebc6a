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
// What an offer is worth in each case, before any belief: by cause and set of tested troubles, the others
// averaged out, since nothing will be learned about them.
struct Averaged {
  std::vector<double> profit, margin, loss;     // of the most profitable path, less the aim
  std::vector<double> most_margin, least_loss;  // of any
};

class RollBack {
 public:
  RollBack(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs)
      : job_(job), beliefs_(beliefs), offers_(offers) {
    for (std::size_t t = 0; t < job.tests.size(); ++t)
      if (still_to_make(job.tests[t])) tests_.push_back(t);
    find_tested_troubles();
    check_size(std::max<std::size_t>(offers.size(), 1));
    place_masks();
    for (const OfferAt& offer : offers) {
      averaged_.push_back(averaged(offer, nullptr));
      families_.emplace_back();
      if (set_of_.size() * job.causes.size() <= many_cases) continue;
      if (job.aims.is_profit_alone()) continue;
      for (const auto& picks : offer.buying->family(state_chances(job, beliefs), offer.price))
        families_.back().push_back(averaged(offer, &picks));
    }
    std::size_t size = 1;
    for (const std::size_t t : tests_) {
      stride_.push_back(size);
      size *= job.tests[t].outcomes.size() + 1;
      cost_.push_back(cost_of(job.tests[t], job.shop));
    }
    // Few states of knowledge can each be looked at closely.
    sets_most_ = std::clamp<std::size_t>(4'000'000 / size, 200, sets_most_default);
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
    return best_offer().worth;
  }
  double decided_after(std::size_t i) {
    double sum = 0;
    for (std::size_t outcome = 0; outcome < outcomes(i); ++outcome) sum += decide(stride_[i] * (outcome + 1));
    return left(i) * sum;
  }
  PlanStep decided() {
    weigh(0);
    const Bought bought = best_offer();
    if (!bought.allowed) return {};
    return {Do::buy, bought.offer, bought.worth, {}};
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

  struct Bought {
    bool allowed = false;
    std::size_t offer = 0;
    double worth = 0;  // 0 where none is allowed
  };

  std::size_t outcomes(std::size_t i) const { return job_.tests[tests_[i]].outcomes.size(); }
  // The chance that the car is still to be had after this test.
  double left(std::size_t i) const { return 1 - gone_of(job_, job_.tests[tests_[i]]); }

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

  // For each set of troubles the place among the sets of tested ones, and the chance of the others in it.
  void place_masks() {
    for (unsigned present = 0; present < 1u << job_.troubles.size(); ++present) {
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
      set_of_.push_back(set);
      untested_.push_back(chance);
    }
  }

  // `picks`: the policy; absent, the most profitable one.
  Averaged averaged(const OfferAt& offer, const std::vector<std::uint32_t>* picks) const {
    const std::size_t sets = std::size_t{1} << tested_.size(), masks = set_of_.size();
    Averaged sum;
    for (auto* values : {&sum.profit, &sum.margin, &sum.loss, &sum.most_margin, &sum.least_loss})
      values->assign(job_.causes.size() * sets, 0.0);
    const auto& menus = offer.buying->at(offer.price).menus;
    for (std::size_t s = 0; s < menus.size(); ++s) {
      const double chance = untested_[s % masks];
      if (menus[s].empty() || chance == 0) continue;
      const std::size_t at = s / masks * sets + set_of_[s % masks];
      const Offering& first = menus[s][picks ? (*picks)[s] : 0];
      double margin = first.margin, loss = first.loss;
      for (const Offering& o : menus[s]) margin = std::max(margin, o.margin), loss = std::min(loss, o.loss);
      sum.profit[at] += chance * (first.profit - job_.aims.profit());
      sum.margin[at] += chance * first.margin;
      sum.loss[at] += chance * first.loss;
      sum.most_margin[at] += chance * margin;
      sum.least_loss[at] += chance * loss;
    }
    return sum;
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

  double believed(const std::vector<double>& of) const {
    double sum = 0;
    const double* each = of.data();
    for (const double cause : by_cause_) {
      double of_cause = 0;
      for (const double set : by_set_) of_cause += set * *each++;
      sum += cause * of_cause;
    }
    return sum;
  }

  // What buying under this offer is worth as things are known, times the chance of knowing them; absent where
  // it is not allowed.
  std::optional<double> worth_of(std::size_t k) {
    const Averaged& of = averaged_[k];
    const double doubt = nothing_gained * std::max(1.0, std::abs(job_.aims.profit())) * total_;
    const double profit = believed(of.profit);
    if (profit < -doubt) return std::nullopt;
    const double loss_most =
        job_.aims[Aim::loss_chance] ? (*job_.aims[Aim::loss_chance] + chance_tolerance) * total_ : 0;
    const double margin_least =
        -nothing_gained * std::max(1.0, std::abs(job_.aims[Aim::per_hour].value_or(0))) * total_;
    const bool loss_fits = !job_.aims[Aim::loss_chance] || believed(of.loss) <= loss_most;
    const bool margin_fits = !job_.aims[Aim::per_hour] || believed(of.margin) >= margin_least;
    if (loss_fits && margin_fits) return std::max(profit, 0.0);
    if (!loss_fits && believed(of.least_loss) > loss_most) return std::nullopt;
    if (!margin_fits && believed(of.most_margin) < margin_least) return std::nullopt;
    if (!families_[k].empty()) return worth_of_family(k, loss_most, margin_least, doubt);
    chances_.resize(by_cause_.size() * set_of_.size());
    double* chance = chances_.data();
    for (const double cause : by_cause_)
      for (std::size_t m = 0; m < set_of_.size(); ++m) *chance++ = cause * by_set_[set_of_[m]] * untested_[m];
    const Held held = offers_[k].buying->held(chances_, offers_[k].price, sets_most_);
    if (!held.holds) return std::nullopt;
    return std::max(held.profit - job_.aims.profit() * total_, 0.0);
  }

  std::optional<double> worth_of_family(std::size_t k, double loss_most, double margin_least,
                                        double doubt) const {
    std::optional<double> best;
    for (const Averaged& of : families_[k]) {
      const double profit = believed(of.profit);
      if (profit < -doubt || (best && profit <= *best)) continue;
      if (job_.aims[Aim::loss_chance] && believed(of.loss) > loss_most) continue;
      if (job_.aims[Aim::per_hour] && believed(of.margin) < margin_least) continue;
      best = std::max(profit, 0.0);
    }
    return best;
  }

  Bought best_offer() {
    Bought best;
    if (!(total_ > 0)) return best;
    for (std::size_t k = 0; k < offers_.size(); ++k) {
      const auto worth = worth_of(k);
      if (!worth || (best.allowed && *worth <= best.worth)) continue;
      best = {true, k, *worth};
    }
    return best;
  }

  void work_out(std::size_t place) {
    weigh(place);
    const Bought bought = best_offer();
    double best = bought.worth;
    std::int32_t act = bought.allowed ? -2 - static_cast<std::int32_t>(bought.offer) : walk;
    for (std::size_t i = 0; i < tests_.size(); ++i) {
      if (place / stride_[i] % (outcomes(i) + 1) != 0) continue;
      double sum = 0;
      for (std::size_t outcome = 0; outcome < outcomes(i); ++outcome)
        sum += value_[place + stride_[i] * (outcome + 1)];
      sum = left(i) * sum - cost_[i] * total_;
      if (sum <= best + nothing_gained * total_) continue;
      best = sum;
      act = static_cast<std::int32_t>(i);
    }
    value_[place] = best;
    act_[place] = act;
  }

  const Job& job_;
  const Beliefs& beliefs_;
  const std::vector<OfferAt>& offers_;
  std::vector<std::size_t> tests_, tested_, stride_;
  std::vector<std::size_t> set_of_;
  std::vector<double> untested_;
  std::vector<Averaged> averaged_;               // by offer
  std::vector<std::vector<Averaged>> families_;  // by offer, where the cases are many
  std::size_t sets_most_ = sets_most_default;
  std::vector<double> cost_, value_;
  std::vector<std::int32_t> act_;
  std::vector<double> by_cause_, by_set_, present_, absent_, chances_;
  double total_ = 0;
};

double perfect(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs) {
  const std::vector<double> chances = state_chances(job, beliefs);
  double sum = 0;
  for (std::size_t s = 0; s < chances.size(); ++s) {
    if (chances[s] == 0) continue;
    double best = 0;
    for (const OfferAt& offer : offers)
      best = std::max(best, offer.buying->at(offer.price).menus[s].front().profit - job.aims.profit());
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
        sum += chances[s] * (offer.buying->at(offer.price).menus[s].front().profit - job.aims.profit());
    best = std::max(best, sum);
  }
  return best;
}

}  // namespace

Plan plan_of(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs, int depth) {
  RollBack roll_back(job, offers, beliefs);
  Plan plan;
  plan.price = offers.front().price;
  plan.decide_now = roll_back.decide(0);
  plan.best = roll_back.best();
  plan.perfect_information = perfect(job, offers, beliefs) - decided_by_profit(job, offers, beliefs);
  for (std::size_t i = 0; i < roll_back.tests().size(); ++i) {
    TestWorth worth{roll_back.tests()[i], roll_back.cost(i), 0, 0};
    worth.gross = roll_back.decided_after(i) - plan.decide_now;
    worth.net = worth.gross - worth.cost;
    plan.tests.push_back(worth);
  }
  plan.steps = plan.gain() >= least_gain_of_a_test(job) ? roll_back.step(0, depth) : roll_back.decided();
  return plan;
}

PlanValues plan_values(const Job& job, std::vector<OfferAt> offers, const Beliefs& beliefs,
                       std::optional<double> plain_price) {
  if (plain_price)
    offers.front().price = *plain_price;
  else
    offers.erase(offers.begin());
  RollBack roll_back(job, offers, beliefs);
  return {roll_back.decide(0), roll_back.best()};
}

}  // namespace nonrunner::appraisal

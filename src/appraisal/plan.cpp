#include "appraisal/plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "exact/ends.h"

namespace nonrunner::appraisal {

double cost_of(const Test& test, const Shop& shop) {
  return test.cash.mean() + test.hours.mean() * shop.pace.mean() * shop.hour;
}

namespace {

constexpr double nothing_gained = 1e-9;  // a test must earn more than what rounding may pretend

// Chances below are those of the evidence and the state together ("joint"), so nothing is divided on the way;
// worths are multiplied by the chance of the evidence in the same way.
// The chances of one state of knowledge: each cause with what the tests about causes have shown, and in the
// place `troubles` what those about troubles have.
struct Known {
  std::vector<double> cause;
  std::size_t troubles = 0;
};

class RollBack {
 public:
  RollBack(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs)
      : job_(job), beliefs_(beliefs), offers_(offers), causes_(job.causes.size()) {
    for (std::size_t t = 0; t < job.tests.size(); ++t)
      if (still_to_make(job.tests[t])) tests_.push_back(t);
    find_tested_troubles();
    check_size(std::max<std::size_t>(offers.size(), 1));
    place_masks();
    place_tests();
    weigh_troubles();
    for (const OfferAt& offer : offers) first_.push_back(first_of(offer));
    others_.resize(offers.size());
    bound_ = bound();
    // Few states of knowledge can each be looked at closely.
    sets_most_ = std::clamp<std::size_t>(4'000'000 / places_, 200, sets_most_default);
  }

  const std::vector<std::size_t>& tests() const { return tests_; }
  double best() {
    if (value_.empty()) {
      value_.assign(places_, unknown);
      at_most_.resize(places_);
      act_.resize(places_);
      work_out(0, begin());
    }
    return value_[0];
  }
  // No plan is worth more.
  double at_most() const { return believed(bound_, begin()); }
  // With one test, or none.
  double best_of_one() {
    double best = decide();
    for (std::size_t i = 0; i < tests_.size(); ++i) best = std::max(best, decided_after(i) - cost_[i]);
    return best;
  }
  double cost(std::size_t i) const { return cost_[i]; }

  double decide() { return best_offer(begin()).worth; }
  double decided_after(std::size_t i) {
    double sum = 0;
    for (std::size_t outcome = 0; outcome < outcomes(i); ++outcome)
      sum += best_offer(then(begin(), i, outcome)).worth;
    return left(i) * sum;
  }
  PlanStep decided() {
    const Bought bought = best_offer(begin());
    if (!bought.allowed) return {};
    return {Do::buy, bought.offer, bought.worth, {}};
  }
  PlanStep steps(int depth) { return step(0, begin(), depth); }

 private:
  static constexpr std::int32_t walk = -1;  // -2 - k: buy under offer k; 0 and more: the test

  struct Bought {
    bool allowed = false;
    std::size_t offer = 0;
    double worth = 0;  // 0 where none is allowed
  };
  // What an offer is worth by cause, the troubles averaged as one place of their outcomes weighs them: the
  // places one after the other.
  using Weighed = std::vector<double>;
  struct First {
    Weighed profit, margin, loss;  // of the most profitable path, less the aim
  };
  struct Others {
    bool made = false;
    Weighed most_margin, least_loss;  // of any path
    std::vector<First> family;        // of some policies, where the cases are many
  };

  std::size_t outcomes(std::size_t i) const { return job_.tests[tests_[i]].outcomes.size(); }
  const Test& test(std::size_t i) const { return job_.tests[tests_[i]]; }
  // The chance that the car is still to be had after this test.
  double left(std::size_t i) const { return 1 - gone_of(job_, test(i)); }

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

  // The tests about troubles come first, so that a place divides into theirs and the others'.
  void place_tests() {
    std::size_t size = 1;
    stride_.resize(tests_.size());
    for (const bool about_troubles : {true, false}) {
      for (std::size_t i = 0; i < tests_.size(); ++i) {
        if (test(i).trouble.has_value() != about_troubles) continue;
        stride_[i] = size;
        size *= outcomes(i) + 1;
      }
      if (about_troubles) of_troubles_ = size;
    }
    for (const std::size_t t : tests_) cost_.push_back(cost_of(job_.tests[t], job_.shop));
    places_ = size;
  }

  // The chance of each set of tested troubles with what each place of their outcomes has shown.
  void weigh_troubles() {
    for (std::size_t place = 0; place < of_troubles_; ++place) {
      std::vector<double> present, absent;
      for (const std::size_t j : tested_) {
        present.push_back(beliefs_.trouble[j]);
        absent.push_back(1 - beliefs_.trouble[j]);
      }
      for (std::size_t i = 0; i < tests_.size(); ++i) {
        if (!test(i).trouble) continue;
        const std::size_t seen = place / stride_[i] % (outcomes(i) + 1);
        if (seen == 0) continue;
        const auto j = static_cast<std::size_t>(std::find(tested_.begin(), tested_.end(), *test(i).trouble) -
                                                tested_.begin());
        present[j] *= test(i).given[0][seen - 1];
        absent[j] *= test(i).given[1][seen - 1];
      }
      std::vector<double> sets = {1.0};
      for (std::size_t j = 0; j < tested_.size(); ++j) {
        const std::size_t half = sets.size();
        sets.resize(2 * half);
        for (std::size_t s = 0; s < half; ++s) {
          sets[half + s] = sets[s] * present[j];
          sets[s] *= absent[j];
        }
      }
      sets_total_.push_back(std::accumulate(sets.begin(), sets.end(), 0.0));
      by_set_.push_back(std::move(sets));
    }
  }

  // `of`: by cause and set of tested troubles.
  Weighed weighed(const std::vector<double>& of) const {
    Weighed all;
    all.reserve(of_troubles_ * causes_);
    for (const std::vector<double>& sets : by_set_) {
      const double* each = of.data();
      for (std::size_t c = 0; c < causes_; ++c) {
        double sum = 0;
        for (const double set : sets) sum += set * *each++;
        all.push_back(sum);
      }
    }
    return all;
  }

  // By cause and set of tested troubles, the others averaged out, since nothing will be learned about them.
  template <class Value>
  std::vector<double> averaged(const OfferAt& offer, Value value) const {
    const std::size_t sets = std::size_t{1} << tested_.size(), masks = set_of_.size();
    std::vector<double> sum(causes_ * sets, 0.0);
    for (std::size_t s = 0; s < offer.buying->cases(); ++s) {
      const double chance = untested_[s % masks];
      if (chance == 0 || !offer.buying->is_possible(s)) continue;
      sum[s / masks * sets + set_of_[s % masks]] += chance * value(s);
    }
    return sum;
  }

  First first_of(const OfferAt& offer) const {
    const std::vector<Offering>& firsts = offer.buying->firsts(offer.price);
    First first;
    first.profit = weighed(averaged(offer, [&](auto s) { return firsts[s].profit - job_.aims.profit(); }));
    if (job_.aims[Aim::per_hour])
      first.margin = weighed(averaged(offer, [&](auto s) { return firsts[s].margin; }));
    if (job_.aims[Aim::loss_chance])
      first.loss = weighed(averaged(offer, [&](auto s) { return firsts[s].loss; }));
    return first;
  }

  // Looked at only where somewhere the most profitable paths do not hold the aims.
  Others& others(std::size_t k) {
    Others& of = others_[k];
    if (of.made) return of;
    of.made = true;
    const OfferAt& offer = offers_[k];
    const auto& menus = offer.buying->menus(offer.price);
    of.most_margin = weighed(averaged(offer, [&](auto s) {
      double most = menus[s][0].margin;
      for (const Offering& o : menus[s]) most = std::max(most, o.margin);
      return most;
    }));
    of.least_loss = weighed(averaged(offer, [&](auto s) {
      double least = menus[s][0].loss;
      for (const Offering& o : menus[s]) least = std::min(least, o.loss);
      return least;
    }));
    if (set_of_.size() * causes_ <= many_cases) return of;
    for (const auto& picks : offer.buying->family(state_chances(job_, beliefs_), offer.price)) {
      const auto taken = [&](std::size_t s) -> const Offering& { return menus[s][picks[s]]; };
      of.family.push_back(
          {weighed(averaged(offer, [&](auto s) { return taken(s).profit - job_.aims.profit(); })),
           weighed(averaged(offer, [&](auto s) { return taken(s).margin; })),
           weighed(averaged(offer, [&](auto s) { return taken(s).loss; }))});
    }
    return of;
  }

  // More than by which no plan can gain: what it would be worth to know the cause and the tested troubles.
  Weighed bound() const {
    const std::size_t sets = std::size_t{1} << tested_.size();
    std::vector<double> most(causes_ * sets, 0.0);
    for (const OfferAt& offer : offers_) {
      const std::vector<Offering>& firsts = offer.buying->firsts(offer.price);
      const std::vector<double> of =
          averaged(offer, [&](auto s) { return firsts[s].profit - job_.aims.profit(); });
      for (std::size_t at = 0; at < most.size(); ++at) most[at] = std::max(most[at], of[at]);
    }
    return weighed(most);
  }

  Known begin() const { return {beliefs_.cause, 0}; }
  Known then(const Known& known, std::size_t i, std::size_t outcome) const {
    Known next = known;
    if (test(i).trouble)
      next.troubles += stride_[i] * (outcome + 1);
    else
      for (std::size_t c = 0; c < causes_; ++c) next.cause[c] *= test(i).given[c][outcome];
    return next;
  }

  double chance_of(const Known& known) const {
    return std::accumulate(known.cause.begin(), known.cause.end(), 0.0) * sets_total_[known.troubles];
  }
  double believed(const Weighed& of, const Known& known) const {
    const double *each = of.data() + known.troubles * causes_, *chance = known.cause.data();
    double sum[4] = {0, 0, 0, 0};  // that do not wait for each other
    std::size_t c = 0;
    for (; c + 4 <= causes_; c += 4)
      for (std::size_t lane = 0; lane < 4; ++lane) sum[lane] += chance[c + lane] * each[c + lane];
    for (; c < causes_; ++c) sum[0] += chance[c] * each[c];
    return (sum[0] + sum[1]) + (sum[2] + sum[3]);
  }

  // What buying under this offer is worth as things are known, times the chance of knowing them; absent where
  // it is not allowed.
  std::optional<double> worth_of(std::size_t k, const Known& known, double chance) {
    const First& of = first_[k];
    const double doubt = nothing_gained * std::max(1.0, std::abs(job_.aims.profit())) * chance;
    const double profit = believed(of.profit, known);
    if (profit < -doubt) return std::nullopt;
    const double loss_most =
        job_.aims[Aim::loss_chance] ? (*job_.aims[Aim::loss_chance] + chance_tolerance) * chance : 0;
    const double margin_least =
        -nothing_gained * std::max(1.0, std::abs(job_.aims[Aim::per_hour].value_or(0))) * chance;
    const bool loss_fits = !job_.aims[Aim::loss_chance] || believed(of.loss, known) <= loss_most;
    const bool margin_fits = !job_.aims[Aim::per_hour] || believed(of.margin, known) >= margin_least;
    if (loss_fits && margin_fits) return std::max(profit, 0.0);
    const Others& any = others(k);
    if (!loss_fits && believed(any.least_loss, known) > loss_most) return std::nullopt;
    if (!margin_fits && believed(any.most_margin, known) < margin_least) return std::nullopt;
    if (!any.family.empty()) return worth_of_family(any.family, known, {loss_most, margin_least, doubt});
    chances_.resize(causes_ * set_of_.size());
    double* each = chances_.data();
    for (const double cause : known.cause)
      for (std::size_t m = 0; m < set_of_.size(); ++m)
        *each++ = cause * by_set_[known.troubles][set_of_[m]] * untested_[m];
    const Held held = offers_[k].buying->held(chances_, offers_[k].price, sets_most_);
    if (!held.holds) return std::nullopt;
    return std::max(held.profit - job_.aims.profit() * chance, 0.0);
  }

  struct Limits {
    double loss_most, margin_least, doubt;
  };
  std::optional<double> worth_of_family(const std::vector<First>& family, const Known& known,
                                        const Limits& limits) const {
    std::optional<double> best;
    for (const First& of : family) {
      const double profit = believed(of.profit, known);
      if (profit < -limits.doubt || (best && profit <= *best)) continue;
      if (job_.aims[Aim::loss_chance] && believed(of.loss, known) > limits.loss_most) continue;
      if (job_.aims[Aim::per_hour] && believed(of.margin, known) < limits.margin_least) continue;
      best = std::max(profit, 0.0);
    }
    return best;
  }

  Bought best_offer(const Known& known) {
    Bought best;
    const double chance = chance_of(known);
    if (!(chance > 0)) return best;
    for (std::size_t k = 0; k < offers_.size(); ++k) {
      const auto worth = worth_of(k, known, chance);
      if (!worth || (best.allowed && *worth <= best.worth)) continue;
      best = {true, k, *worth};
    }
    return best;
  }

  // Down from a state to those after it, each once, and only to those that could change what is best.
  void work_out(std::size_t place, const Known& known) {
    const Bought bought = best_offer(known);
    const double chance = chance_of(known), tie = nothing_gained * chance;
    at_most_[place] = believed(bound_, known);
    double best = bought.worth;
    std::int32_t act = bought.allowed ? -2 - static_cast<std::int32_t>(bought.offer) : walk;
    for (std::size_t i = 0; i < tests_.size(); ++i) {
      if (place / stride_[i] % (outcomes(i) + 1) != 0) continue;
      // The least that has to come of it to be better; what is not yet known counts as much as it could be.
      const double least = best + tie + cost_[i] * chance;
      double sum = 0, open = at_most_[place];
      bool hopeless = left(i) * open <= least;
      for (std::size_t outcome = 0; outcome < outcomes(i) && !hopeless; ++outcome) {
        const std::size_t next = place + stride_[i] * (outcome + 1);
        if (value_[next] == unknown) work_out(next, then(known, i, outcome));
        sum += value_[next];
        open -= at_most_[next];
        hopeless = left(i) * (sum + std::max(open, 0.0)) <= least - tie;
      }
      if (hopeless || left(i) * sum - cost_[i] * chance <= best + tie) continue;
      best = left(i) * sum - cost_[i] * chance;
      act = static_cast<std::int32_t>(i);
    }
    act_[place] = act;
    value_[place] = best;
  }

  PlanStep step(std::size_t place, const Known& known, int depth) {
    const double chance = chance_of(known);
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
      const Known next = then(known, i, outcome);
      const double of_outcome = chance_of(next);
      if (!(of_outcome > 0)) continue;
      PlanStep::Branch branch{outcome, of_outcome / chance, {}};
      if (depth > 0) branch.step.push_back(this->step(place + stride_[i] * (outcome + 1), next, depth - 1));
      step.branches.push_back(std::move(branch));
    }
    return step;
  }

  static constexpr double unknown = -1;  // no value is below 0
  const Job& job_;
  const Beliefs& beliefs_;
  const std::vector<OfferAt>& offers_;
  std::size_t causes_;
  std::vector<std::size_t> tests_, tested_, stride_;
  std::vector<std::size_t> set_of_;
  std::vector<double> untested_;
  std::size_t places_ = 1;
  std::size_t of_troubles_ = 1;              // places of the outcomes of tests about troubles
  std::vector<std::vector<double>> by_set_;  // by such a place
  std::vector<double> sets_total_;
  std::vector<First> first_;    // by offer
  std::vector<Others> others_;  // by offer
  Weighed bound_;
  std::size_t sets_most_ = sets_most_default;
  std::vector<double> cost_, value_, at_most_;
  std::vector<std::int32_t> act_;
  std::vector<double> chances_;
};

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
  plan.steps = plan.gain() >= least_gain_of_a_test(job) ? roll_back.steps(depth) : roll_back.decided();
  return plan;
}

namespace {
std::vector<OfferAt> with_plain_at(std::vector<OfferAt> offers, std::optional<double> plain_price) {
  if (plain_price)
    offers.front().price = *plain_price;
  else
    offers.erase(offers.begin());
  return offers;
}
}  // namespace

PlanValues plan_values(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs,
                       std::optional<double> plain_price) {
  const std::vector<OfferAt> at = with_plain_at(offers, plain_price);
  RollBack roll_back(job, at, beliefs);
  return {roll_back.decide(), roll_back.best()};
}

double worth_with_one_test(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs,
                           double plain_price) {
  const std::vector<OfferAt> at = with_plain_at(offers, plain_price);
  return RollBack(job, at, beliefs).best_of_one();
}

bool gains_enough(const Job& job, const std::vector<OfferAt>& offers, const Beliefs& beliefs,
                  double plain_price) {
  const std::vector<OfferAt> at = with_plain_at(offers, plain_price);
  RollBack roll_back(job, at, beliefs);
  const double enough = roll_back.decide() + least_gain_of_a_test(job);
  if (roll_back.at_most() < enough) return false;
  return roll_back.best_of_one() >= enough || roll_back.best() >= enough;
}

}  // namespace nonrunner::appraisal

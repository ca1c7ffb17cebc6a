#include "appraisal/roll_back.h"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <memory>

#include "exact/ends.h"

namespace nonrunner::appraisal {

namespace {

constexpr double nothing_gained = 1e-9;  // a test must earn more than what rounding may pretend
constexpr double unknown = -1;           // no value is below 0
// Cases times states of knowledge: beyond, policies are looked for among some that are chosen beforehand.
constexpr std::size_t looked_at_closely = 5'000;
constexpr std::int32_t walk = -1;  // -2 - k: buy under offer k; 0 and more: the test

double sum_of_products(const double* one, const double* other, std::size_t n) {
  double sum[4] = {0, 0, 0, 0};  // that do not wait for each other
  std::size_t at = 0;
  for (; at + 4 <= n; at += 4)
    for (std::size_t lane = 0; lane < 4; ++lane) sum[lane] += one[at + lane] * other[at + lane];
  for (; at < n; ++at) sum[0] += one[at] * other[at];
  return (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

}  // namespace

RollBack::RollBack(const Job& job, std::vector<OfferAt> offers, const Knowledge& knowledge)
    : job_(job),
      offers_(std::move(offers)),
      required_(required_by(job, job.aims)),
      knowledge_(knowledge),
      others_(offers_.size()) {
  check_size();
  for (std::size_t i = 0; i < tests().size(); ++i) {
    cost_.push_back(cost_of(knowledge_.test(i), job.shop));
    left_.push_back(1 - gone_of(job, knowledge_.test(i)));
    outcomes_.push_back(knowledge_.outcomes(i));
  }
  for (const OfferAt& offer : offers_) {
    Figures& first = first_.emplace_back();
    first.profit = Weighed([this, offer] {
      const std::vector<Offering>& firsts = offer.buying->by_profit(offer.price);
      return knowledge_.by_tested([&](std::size_t s) { return firsts[s].profit - job_.aims.profit(); });
    });
    for (std::size_t i = 0; i < all_kept.size(); ++i)
      first.kept[i] = Weighed([this, offer, i] {
        const std::vector<Offering>& firsts = offer.buying->firsts(offer.price);
        return knowledge_.by_tested([&](std::size_t s) { return firsts[s].*all_kept[i].of; });
      });
  }
  const std::size_t cases = offers_.empty() ? 0 : offers_.front().buying->cases();
  by_family_ = cases > many_cases || cases * knowledge_.places() > looked_at_closely;
}

void RollBack::check_size() const {
  double states = 1;
  for (std::size_t i = 0; i < tests().size(); ++i) states *= static_cast<double>(knowledge_.outcomes(i) + 1);
  const double each = static_cast<double>(job_.causes.size()) *
                      std::ldexp(1.0, static_cast<int>(knowledge_.tested_troubles())) *
                      static_cast<double>(std::max<std::size_t>(offers_.size(), 1));
  if (states <= knowledge_max && states * each <= work_max) return;
  throw Refusal(fmt::format(
      "{}: {} tests still to make give {:.0f} states of knowledge, each with {:.0f} to weigh, expected at "
      "most {:.0f} "
      "states and {:.0f} together; leave out the tests that tell least, or mark them spoiled = true",
      job_.vehicle.tag, tests().size(), states, each, knowledge_max, work_max));
}

const std::vector<double>& RollBack::Weighed::of() {
  if (of_.empty()) of_ = make_();
  return of_;
}

const double* RollBack::Weighed::at(const Knowledge& knowledge, const Known& known) {
  if (rows_.empty()) rows_.resize(knowledge.trouble_places());
  std::vector<double>& row = rows_[known.trouble_place];
  if (row.empty()) {
    row.resize(knowledge.causes());
    knowledge.weigh(of(), known, row.data());
  }
  return row.data();
}

double RollBack::believed(Weighed& of, const Known& known) {
  return sum_of_products(of.at(knowledge_, known), known.cause->data(), known.cause->size());
}

// What buying may come to at a state of that chance.
RollBack::Limits RollBack::limits_at(double chance) const {
  return {bounds_on(required_, chance),
          nothing_gained * std::max(1.0, std::abs(job_.aims.profit())) * chance};
}

ByKept<bool> RollBack::keeps(ByKept<Weighed>& of, const Known& known, const Limits& limits) {
  ByKept<bool> kept;
  for (std::size_t i = 0; i < kept.size(); ++i)
    kept[i] = !limits.bounds[i] || all_kept[i].keeps(believed(of[i], known), *limits.bounds[i]);
  return kept;
}

bool RollBack::keeps_all(ByKept<Weighed>& of, const Known& known, const Limits& limits) {
  for (std::size_t i = 0; i < all_kept.size(); ++i)
    if (limits.bounds[i] && !all_kept[i].keeps(believed(of[i], known), *limits.bounds[i])) return false;
  return true;
}

// Looked at only where somewhere the most profitable paths do not hold the aims.
RollBack::Others& RollBack::others(std::size_t k) {
  if (others_[k]) return *others_[k];
  Others& of = others_[k].emplace();
  const OfferAt& offer = offers_[k];
  const auto weighed = [this, offer](auto value) {
    return Weighed([this, offer, value] {
      const std::vector<Menu>& menus = offer.buying->menus(offer.price);
      return knowledge_.by_tested(
          [&](std::size_t s) { return offer.buying->is_possible(s) ? value(menus[s], s) : 0; });
    });
  };
  for (std::size_t i = 0; i < all_kept.size(); ++i)
    of.best[i] = weighed([i](const Menu& menu, std::size_t) {
      const Kept& kept = all_kept[i];
      return kept.at_most ? std::ranges::min(menu, {}, kept.of).*kept.of
                          : std::ranges::max(menu, {}, kept.of).*kept.of;
    });
  if (!by_family_) return of;
  for (auto& policy : offer.buying->family(offer.price)) {
    const auto picks = std::make_shared<const std::vector<std::uint32_t>>(std::move(policy));
    Figures& figures = of.family.emplace_back();
    figures.profit = weighed([this, picks](const Menu& menu, std::size_t s) {
      return menu[(*picks)[s]].profit - job_.aims.profit();
    });
    for (std::size_t i = 0; i < all_kept.size(); ++i)
      figures.kept[i] =
          weighed([i, picks](const Menu& menu, std::size_t s) { return menu[(*picks)[s]].*all_kept[i].of; });
  }
  return of;
}

std::optional<double> RollBack::worth_of(std::size_t k, const Known& known, double chance, double need,
                                         bool& is_known) {
  Figures& of = first_[k];
  const Limits limits = limits_at(chance);
  const double profit = believed(of.profit, known);
  if (profit < -limits.doubt) return std::nullopt;
  // No other policy brings more.
  if (profit <= need) {
    is_known = false;
    return std::nullopt;
  }
  const ByKept<bool> kept = keeps(of.kept, known, limits);
  if (std::ranges::count(kept, false) == 0) return std::max(profit, 0.0);
  Others& any = others(k);
  for (std::size_t i = 0; i < kept.size(); ++i)
    if (!kept[i] && !all_kept[i].keeps(believed(any.best[i], known), *limits.bounds[i])) return std::nullopt;
  // What is decided without a test is looked at as closely as the walk-away price.
  const bool at_first = known.made == 0 && offers_[k].buying->cases() <= many_cases;
  if (by_family_ && !at_first) {
    is_exact_ = false;
    return worth_of_family(any.family, known, limits);
  }
  knowledge_.chances_of(known, chances_);
  const double more = std::max(need, 0.0);
  const Held held = offers_[k].buying->held(chances_, offers_[k].price, more);
  is_exact_ = is_exact_ && held.exact;
  if (!held.holds) {
    is_known = is_known && more == 0;
    return std::nullopt;
  }
  return std::max(held.profit - job_.aims.profit() * chance, 0.0);
}

std::optional<double> RollBack::worth_of_family(std::vector<Figures>& family, const Known& known,
                                                const Limits& limits) {
  std::optional<double> best;
  for (Figures& of : family) {
    const double profit = believed(of.profit, known);
    if (profit < -limits.doubt || (best && profit <= *best)) continue;
    if (!keeps_all(of.kept, known, limits)) continue;
    best = std::max(profit, 0.0);
  }
  return best;
}

RollBack::Bought RollBack::best_offer(const Known& known, double need) {
  Bought best;
  const double chance = known.chance;
  if (!(chance > 0)) return best;
  if (known.made == 0 && decided_) return *decided_;
  for (std::size_t k = 0; k < offers_.size(); ++k) {
    const auto worth = worth_of(k, known, chance, need, best.is_known);
    if (!worth || (best.allowed && *worth <= best.worth)) continue;
    best = {true, k, *worth, best.is_known};
  }
  if (known.made == 0 && need == unknown) decided_ = best;
  return best;
}

double RollBack::decide() { return best_offer(knowledge_.begin(), unknown).worth; }

double RollBack::decided_after(std::size_t i) {
  double sum = 0;
  for (std::size_t outcome = 0; outcome < knowledge_.outcomes(i); ++outcome)
    sum += best_offer(knowledge_.then(knowledge_.begin(), i, outcome), unknown).worth;
  return left_[i] * sum;
}

double RollBack::best_of_one() {
  double best = decide();
  for (std::size_t i = 0; i < tests().size(); ++i) best = std::max(best, decided_after(i) - cost_[i]);
  return best;
}

PlanStep RollBack::decided() {
  const Bought bought = best_offer(knowledge_.begin(), unknown);
  if (!bought.allowed) return {};
  return {Do::buy, bought.offer, bought.worth, {}};
}

// `of_offers`: by cause and set of tested troubles, what each is worth at most. Lowers the ceilings to what the best plan
// would be worth by these: they are sums over what can still come, so that their plan is rolled back over numbers alone.
void RollBack::lower_ceilings(const std::vector<std::vector<double>>& of_offers) {
  std::vector<std::vector<double>> at_last, bought(of_offers.size());
  for (const std::vector<double>& of : of_offers) at_last.push_back(knowledge_.weighed_at_last(of));
  for (std::vector<double>& each : bought) each.resize(knowledge_.places());
  const std::vector<std::size_t>& ends = knowledge_.last_trouble_places();
  const std::size_t n = knowledge_.causes();
  const std::vector<double>& chance = knowledge_.chances();
  knowledge_.at_last_of_causes([&](std::size_t place, const std::vector<double>& cause) {
    for (std::size_t end = 0; end < ends.size(); ++end) {
      for (std::size_t k = 0; k < bought.size(); ++k)
        bought[k][place + ends[end]] = sum_of_products(at_last[k].data() + end * n, cause.data(), n);
    }
  });
  for (std::vector<double>& each : bought) knowledge_.sum_up(each);
  std::vector<double> ceiling(knowledge_.places(), 0.0);
  knowledge_.backwards([&](std::size_t place, std::uint32_t unmade) {
    double most = 0;
    for (const std::vector<double>& each : bought) most = std::max(most, each[place]);
    for (; unmade != 0; unmade &= unmade - 1) {
      const auto i = static_cast<std::size_t>(std::countr_zero(unmade));
      double sum = 0;
      for (std::size_t outcome = 0; outcome < outcomes_[i]; ++outcome)
        sum += ceiling[knowledge_.after(place, i, outcome)];
      most = std::max(most, left_[i] * sum - cost_[i] * chance[place]);
    }
    ceiling[place] = most;
  });
  if (at_most_.empty())
    at_most_ = std::move(ceiling);
  else
    for (std::size_t place = 0; place < ceiling.size(); ++place)
      at_most_[place] = std::min(at_most_[place], ceiling[place]);
}

// The ceiling of all, by the aim for profit alone where that is below `enough`: the other takes what every path loses.
double RollBack::ceiling(double enough) {
  if (at_most_.empty()) {
    std::vector<std::vector<double>> of_offers;
    for (Figures& first : first_) of_offers.push_back(first.profit.of());
    lower_ceilings(of_offers);
  }
  if (at_most_[0] >= enough && !by_all_aims_) {
    by_all_aims_ = true;
    if (!job_.aims.is_profit_alone()) lower_ceilings_by_all_aims();
  }
  return at_most_[0];
}

void RollBack::lower_ceilings_by_all_aims() {
  std::vector<std::vector<double>> of_offers;
  for (const OfferAt& offer : offers_) {
    const PricesOfAims at = offer.buying->prices_of_aims();
    const auto& menus = offer.buying->menus(offer.price);
    const double more = left_by_bounds(at, required_, 1) - job_.aims.profit();
    of_offers.push_back(knowledge_.by_tested([&](std::size_t s) {
      if (!offer.buying->is_possible(s)) return 0.0;
      double most = -1e300;
      for (const Offering& o : menus[s]) most = std::max(most, priced(o, at));
      return most + more;
    }));
  }
  lower_ceilings(of_offers);
}

double RollBack::best() {
  const double one = best_of_one();
  best_from(one - nothing_gained * std::max(1.0, one));
  // Looked for more closely another policy may bring a little less where there are many.
  if (value_[0] == unknown) work_out(0, knowledge_.begin(), unknown);
  return value_[0];
}

double RollBack::best_from(double enough) {
  // What is just enough is to be told from what is not.
  const double need = enough - nothing_gained * std::max(1.0, std::abs(enough));
  if (value_.empty()) {
    value_.assign(knowledge_.places(), unknown);
    act_.resize(knowledge_.places());
  }
  if (value_[0] == unknown && ceiling(need) > need) work_out(0, knowledge_.begin(), need);
  return value_[0] == unknown ? std::min(at_most_[0], need) : value_[0];
}

// Down from a state to those after it, each to its value where that is above `need`; else only its ceiling is lowered
// to `need` or below.
void RollBack::work_out(std::size_t place, const Known& known, double need) {
  const Bought bought = best_offer(known, need);
  const double chance = known.chance, tie = nothing_gained * chance;
  double best = bought.worth, left_out = bought.is_known ? 0 : need;
  std::int32_t act = bought.allowed ? -2 - static_cast<std::int32_t>(bought.offer) : walk;
  for (std::size_t i = 0; i < tests().size(); ++i) {
    if (known.made >> i & 1u) continue;
    const double target = std::max(best + tie, need);
    double at_most = 0;
    const double worth = try_test(i, place, known, target + cost_[i] * chance, at_most) - cost_[i] * chance;
    if (worth > target) {
      best = worth;
      act = static_cast<std::int32_t>(i);
    } else {
      left_out = std::max(left_out, at_most - cost_[i] * chance);
    }
  }
  if (best <= need && left_out > best + tie) {
    at_most_[place] = std::min(at_most_[place], std::max(best, left_out));
    return;
  }
  act_[place] = act;
  value_[place] = at_most_[place] = best;
}

// What is left after the test, its cost not taken off, where that is above `target`; else `unknown`, and `at_most` says
// what it does not exceed.
double RollBack::try_test(std::size_t i, std::size_t place, const Known& known, double target,
                          double& at_most) {
  double open = 0, sum = 0;
  for (std::size_t outcome = 0; outcome < knowledge_.outcomes(i); ++outcome)
    open += at_most_[knowledge_.after(place, i, outcome)];
  const double still = left_[i];
  for (std::size_t outcome = 0; outcome < knowledge_.outcomes(i); ++outcome) {
    at_most = still * (sum + std::max(open, 0.0));
    if (at_most <= target) return unknown;
    const std::size_t next = knowledge_.after(place, i, outcome);
    open -= at_most_[next];
    if (value_[next] == unknown) {
      const double need = target / still - sum - std::max(open, 0.0);
      if (at_most_[next] > need) work_out(next, knowledge_.then(known, i, outcome), need);
      if (value_[next] == unknown) {
        at_most = still * (sum + at_most_[next] + std::max(open, 0.0));
        return unknown;
      }
    }
    sum += value_[next];
  }
  at_most = still * sum;
  return at_most;
}

bool RollBack::gains_enough() {
  const double enough = decide() + least_gain_of_a_test(job_);
  if (ceiling(enough) < enough) return false;
  return best_of_one() >= enough || best_from(enough) >= enough;
}

double RollBack::falls() {
  if (value_.empty() || value_[0] == unknown) return 0;
  return (1 + job_.deal.rate) * bought_as_it_stands(0, knowledge_.begin());
}

// The chance that the plan buys the first of the offers, from there on.
double RollBack::bought_as_it_stands(std::size_t place, const Known& known) {
  const std::int32_t act = act_[place];
  if (act < 0) return act == -2 ? known.chance : 0;
  const auto i = static_cast<std::size_t>(act);
  double sum = 0;
  for (std::size_t outcome = 0; outcome < knowledge_.outcomes(i); ++outcome)
    sum += bought_as_it_stands(knowledge_.after(place, i, outcome), knowledge_.then(known, i, outcome));
  return left_[i] * sum;
}

GainBelow RollBack::gain_below() {
  GainBelow below;
  const Known known = knowledge_.begin();
  const Limits limits = limits_at(known.chance);
  Figures& first = first_.front();
  below.is_known = keeps_all(first.kept, known, limits);
  if (!below.is_known) return below;
  below.decided = believed(first.profit, known);
  std::vector<std::vector<double>> at_last;
  for (Figures& of : first_) at_last.push_back(knowledge_.weighed_at_last(of.profit.of()));
  const std::vector<double> certain =
      knowledge_.weighed_at_last(std::vector<double>(first.profit.of().size(), 1.0));
  const std::size_t n = knowledge_.causes();
  knowledge_.at_last_of_causes([&](std::size_t, const std::vector<double>& cause) {
    for (std::size_t end = 0; end < knowledge_.last_trouble_places().size(); ++end) {
      const auto at = [&](const std::vector<double>& of) {
        return sum_of_products(of.data() + end * n, cause.data(), n);
      };
      double others = 0;
      for (std::size_t k = 1; k < at_last.size(); ++k) others = std::max(others, at(at_last[k]));
      below.at_last.push_back({at(at_last[0]), others, at(certain)});
    }
  });
  return below;
}

double GainBelow::at_most(double less_paid) const {
  double sum = 0;
  for (const AtLast& each : at_last) sum += std::max(each.others, each.plain + less_paid * each.chance);
  return sum - (decided + less_paid);
}

PlanStep RollBack::steps(int depth) { return step(0, knowledge_.begin(), depth); }

PlanStep RollBack::step(std::size_t place, const Known& known, int depth) {
  const double chance = known.chance;
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
  step.which = tests()[i];
  for (std::size_t outcome = 0; outcome < knowledge_.outcomes(i); ++outcome) {
    const Known next = knowledge_.then(known, i, outcome);
    const double of_outcome = next.chance;
    if (!(of_outcome > 0)) continue;
    PlanStep::Branch branch{outcome, of_outcome / chance, {}};
    if (depth > 0) branch.step.push_back(this->step(knowledge_.after(place, i, outcome), next, depth - 1));
    step.branches.push_back(std::move(branch));
  }
  return step;
}

}  // namespace nonrunner::appraisal

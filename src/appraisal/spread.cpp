#include "appraisal/spread.h"

#include <algorithm>
#include <map>
#include <utility>

#include "chance/weighted_quantiles.h"
#include "chance/weighted_sample.h"

namespace nonrunner::appraisal {

namespace {

constexpr std::size_t bar_count = 30;
constexpr double worth_counting = 0.01;  // the least chance of a worst case

class Gathering {
 public:
  Gathering(Buying& buying, Draws& draws, const Policy& policy, bool with_steps)
      : job_(buying.job()),
        draws_(draws),
        policy_(policy),
        courses_(buying.courses(policy.price)),
        drawn_(buying.ways(policy.price)),
        points_(buying.points()),
        payment_(paid_at(buying.job().deal, policy.price)),
        with_steps_(with_steps) {
    for (auto* values : {&cash_, &profit_, &outlay_, &weights_}) values->reserve(points_.together());
  }

  void add(std::size_t cause, unsigned present, double chance, const Path& path) {
    courses_.outcomes(cause, present, path, outcomes_);
    for (const PathOutcome& outcome : outcomes_) {
      const double of = chance * outcome.chance;
      if (of == 0) continue;
      note_worst(cause, present, of, outcome);
      const Stretch points = points_.of(of, ways_++);
      least_ = std::min(least_, points.count);
      const Buying::Ways::Way way = drawn_.of(cause, present, path, outcome);
      const double* fees = job_.deal.fees.is_constant() ? nullptr : draws_.of(job_.deal.fees).data();
      const double weight = of / static_cast<double>(points.count);
      for (std::size_t i = points.first; i < points.first + points.count; ++i) {
        const double paid = payment_ + (fees ? fees[i] : job_.deal.fees.low), days = way.days(i);
        const double cash = way.cash(i) - paid * (1 + job_.shop.money_rate * days / 365);
        cash_.push_back(cash);
        profit_.push_back(cash - way.hours(i) * job_.shop.hour - days * job_.shop.bay_per_day);
        outlay_.push_back(way.outlay(i) + paid);
        weights_.push_back(weight);
      }
    }
  }

  Spread spread() {
    Spread result;
    result.cash_needed = worst_;
    result.cash_needed.expected = policy_.outlook.outlay + payment_ + job_.deal.fees.mean();
    result.cash_needed.p95 = weighted_quantiles(outlay_, weights_, {0.95})[0];
    if (!any_counts_) take_together(result.cash_needed);
    Risk& risk = result.risk;
    risk.points = weights_.size();
    if (least_ < points_.all()) risk.fewer = Risk::Fewer{ways_, least_, points_.all()};
    risk.loss_chance = policy_.loss_chance;
    const std::vector<double> shares = {0.05, 0.25, 0.50, 0.75, 0.95};
    const WeightedSample cash(std::move(cash_));
    std::ranges::copy(cash.quantiles(shares, weights_), risk.cash_profit.begin());
    std::ranges::copy(weighted_quantiles(profit_, weights_, shares), risk.profit.begin());
    risk.sampled_cash_profit = cash.mean(weights_);
    risk.sampled_profit = weighted_mean(profit_, weights_);
    draw_bars(risk, cash);
    if (with_steps_) {
      std::vector<double> middles;
      for (std::size_t i = 0; i < steps_of_a_spread; ++i)
        middles.push_back((static_cast<double>(i) + 0.5) / static_cast<double>(steps_of_a_spread));
      risk.steps = cash.quantiles(middles, weights_);
    }
    return result;
  }

 private:
  void note_worst(std::size_t cause, unsigned present, double chance, const PathOutcome& outcome) {
    const double needs =
        outcome.figures.outlay + courses_.opening_cash(cause) + payment_ + job_.deal.fees.mean();
    Together& of_cause = together_[{cause, outcome.made}];
    of_cause.chance += chance;
    of_cause.needs += chance * needs;
    const bool counts = chance >= worth_counting;
    const bool worse = counts ? !any_counts_ || needs > worst_.worst : !any_counts_ && chance > likeliest_;
    if (!worse) return;
    any_counts_ = any_counts_ || counts;
    likeliest_ = std::max(likeliest_, chance);
    worst_.worst = needs;
    worst_.worst_cause = cause;
    worst_.worst_troubles = present;
    worst_.worst_corrections.clear();
    for (std::size_t i = 0; i < outcome.made; ++i)
      worst_.worst_corrections.push_back(courses_.chain(cause).steps[i].correction);
  }

  // So many cases that none is likely: those of one cause and way together, whatever the troubles; and never less
  // than is enough 19 times in 20.
  void take_together(CashNeeded& cash) const {
    bool found = false;
    for (const auto& [which, of] : together_) {
      if (of.chance < worth_counting || (found && of.needs / of.chance <= cash.worst)) continue;
      found = true;
      cash.worst = of.needs / of.chance;
      cash.worst_cause = which.first;
      cash.worst_troubles = 0;
      cash.worst_corrections.clear();
      for (std::size_t i = 0; i < which.second; ++i)
        cash.worst_corrections.push_back(courses_.chain(which.first).steps[i].correction);
    }
    cash.worst = std::max(cash.worst, cash.p95);
  }

  void draw_bars(Risk& risk, const WeightedSample& cash) const {
    const std::vector<double> ends = cash.quantiles({0.005, 0.995}, weights_);
    risk.from = ends[0];
    risk.to = ends[1] > ends[0] ? ends[1] : ends[0] + 1;
    const double step = (risk.to - risk.from) / bar_count;
    std::vector<double> edges;
    for (std::size_t i = 1; i < bar_count; ++i) edges.push_back(risk.from + step * static_cast<double>(i));
    double before = 0;
    for (const double below : cash.shares_below(edges, weights_)) {
      risk.bars.push_back(below - before);
      before = below;
    }
    risk.bars.push_back(1 - before);
  }

  const Job& job_;
  Draws& draws_;
  const Policy& policy_;
  const Courses& courses_;
  Buying::Ways drawn_;
  const Points& points_;
  double payment_;
  bool with_steps_;
  std::size_t ways_ = 0, least_ = points_max;
  std::vector<double> cash_, profit_, outlay_, weights_;
  std::vector<PathOutcome> outcomes_;  // room for one path
  CashNeeded worst_;
  bool any_counts_ = false;
  struct Together {
    double chance = 0, needs = 0;
  };
  std::map<std::pair<std::size_t, std::size_t>, Together> together_;  // by cause and corrections made
  double likeliest_ = 0;
};

}  // namespace

Spread spread_of(Buying& buying, Draws& draws, const Policy& policy, const std::vector<double>& chances,
                 bool with_steps) {
  Gathering gathering(buying, draws, policy, with_steps);
  for (std::size_t s = 0; s < chances.size(); ++s)
    if (chances[s] > 0)
      gathering.add(s / buying.masks(), static_cast<unsigned>(s % buying.masks()), chances[s],
                    policy.paths[s]);
  return gathering.spread();
}

}  // namespace nonrunner::appraisal

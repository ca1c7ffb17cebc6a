// The cash profit and the profit of a policy as distributions, and the cash that it needs: every case and
// every way that its corrections turn out, weighted by its exact chance, with the amounts drawn within.
#pragma once
#include <array>
#include <optional>
#include <vector>

#include "appraisal/buying.h"

namespace nonrunner::appraisal {

struct Risk {
  double loss_chance = 0;
  std::array<double, 5> cash_profit{};  // at 5, 25, 50, 75, 95 %
  std::array<double, 5> profit{};
  double sampled_cash_profit = 0;  // mean of the points, against Expected::cash_profit by formula
  double sampled_profit = 0;
  std::size_t points = 0;  // of all cases together
  // Where there are so many ways to go that the unlikely ones are drawn at fewer points (points.h).
  struct Fewer {
    std::size_t ways = 0, least = 0, most = 0;  // points of one way
  };
  std::optional<Fewer> fewer;
  // The spread of the cash profit: equal steps from `from` to `to` with the chance of each; what lies outside
  // is in the first and the last.
  double from = 0, to = 0;
  std::vector<double> bars;
  // The cash profit at equally likely chances, rising; only where it was asked for.
  std::vector<double> steps;
};
constexpr std::size_t steps_of_a_spread = 1000;

// Price with its tax and fees, opening up, work, deposits, fixes, troubles, the costs of selling or parting
// out; holding left out.
struct CashNeeded {
  double expected = 0;
  double p95 = 0;
  // Expected in the dearest case and way along its chain that has a chance of at least 1 %. Where none has, in the
  // dearest cause and way, its troubles together, and no less than `p95`.
  double worst = 0;
  std::size_t worst_cause = 0;
  unsigned worst_troubles = 0;
  std::vector<std::size_t> worst_corrections;  // made until then
};

struct Spread {
  Risk risk;
  CashNeeded cash_needed;
};

Spread spread_of(Buying&, Draws&, const Policy&, const std::vector<double>& chances, bool with_steps = false);

}  // namespace nonrunner::appraisal

#include "appraisal/walk_away.h"

#include <cmath>

namespace nonrunner::appraisal {

WalkAway walk_away(const Job& job, const Outlook& outlook, const WeightedSample& break_even_prices,
                   const std::vector<double>& weights) {
  WalkAway limits;
  const double worth_of_hours = outlook.own_hours * job.shop.hour;
  limits.by_profit = price_of_purchase(job, outlook.cash - worth_of_hours - job.aims.profit, outlook.days);
  if (job.aims.loss_chance) {
    const double highest = break_even_prices.highest_with_share_below(*job.aims.loss_chance, weights);
    if (std::isfinite(highest)) limits.by_loss_chance = highest;
  }
  if (job.aims.per_hour)
    limits.by_per_hour =
        price_of_purchase(job, outlook.cash - *job.aims.per_hour * outlook.own_hours, outlook.days);

  limits.price = *limits.by_profit;
  limits.binding = "profit";
  if (limits.by_loss_chance && *limits.by_loss_chance < limits.price) {
    limits.price = *limits.by_loss_chance;
    limits.binding = "loss_chance";
  }
  if (limits.by_per_hour && *limits.by_per_hour < limits.price) {
    limits.price = *limits.by_per_hour;
    limits.binding = "per_hour";
  }
  return limits;
}

}  // namespace nonrunner::appraisal

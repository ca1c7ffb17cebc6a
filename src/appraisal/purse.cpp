#include "appraisal/purse.h"

#include "appraisal/buying.h"
#include "appraisal/points.h"
#include "chance/weighted_sample.h"

namespace nonrunner::appraisal {

namespace {

constexpr std::size_t steps = 512;

std::vector<double> steps_of(std::vector<double> values, const std::vector<double>& weights) {
  std::vector<double> shares;
  for (std::size_t i = 0; i < steps; ++i)
    shares.push_back((static_cast<double>(i) + 0.5) / static_cast<double>(steps));
  return WeightedSample(std::move(values)).quantiles(shares, weights);
}

}  // namespace

std::optional<FromPurse> from_purse(const Job& job, const SoundValue& sound, double price,
                                    std::size_t points) {
  const Beliefs now = posterior(job);
  const std::vector<double> chances = state_chances(job, now);
  Draws draws(job, sound, points_in_a_case(job, now, points));
  Buying buying(job, sound, draws, {}, chances);
  const Policy policy = buying.policy(chances, price);
  if (!policy.holds) return std::nullopt;
  const Courses& courses = buying.courses(price);
  Buying::Ways drawn = buying.ways(price);
  const double payment = paid_at(job.deal, price);
  std::vector<double> cash, hours, weights;
  std::size_t ways = 0;
  for (std::size_t s = 0; s < chances.size(); ++s) {
    if (!(chances[s] > 0)) continue;
    const std::size_t cause = s / buying.masks();
    const auto present = static_cast<unsigned>(s % buying.masks());
    for (const PathOutcome& outcome : courses.outcomes(cause, present, policy.paths[s])) {
      const double chance = chances[s] * outcome.chance;
      const Stretch at = buying.points().of(chance, ways++);
      const Buying::Ways::Way way = drawn.of(cause, present, policy.paths[s], outcome);
      const double weight = chance / static_cast<double>(at.count);
      for (std::size_t i = at.first; i < at.first + at.count; ++i) {
        const double fees = job.deal.fees.is_constant() ? job.deal.fees.low : draws.of(job.deal.fees)[i];
        cash.push_back(way.outlay(i) + payment + fees);
        hours.push_back(way.hours(i));
        weights.push_back(weight);
      }
    }
  }
  FromPurse all;
  all.profit = policy.profit;
  all.cash = policy.outlook.outlay + payment + job.deal.fees.mean();
  all.hours = policy.outlook.own_hours;
  all.cash_steps = steps_of(std::move(cash), weights);
  all.hours_steps = steps_of(std::move(hours), weights);
  return all;
}

}  // namespace nonrunner::appraisal

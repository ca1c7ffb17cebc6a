#include "resale/own_records.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace nonrunner::resale {

MeanAndSpread mean_and_spread(const std::vector<double>& values) {
  MeanAndSpread result;
  result.number = values.size();
  if (values.empty()) return result;
  const double n = static_cast<double>(values.size());
  // Differences from the first value are exact where values lie close together; what the mean missed is added
  // after.
  const double origin = values[0];
  double sum = 0;
  for (const double value : values) sum += value - origin;
  const double shift = sum / n;
  double squares = 0, rest = 0;
  for (const double value : values) {
    const double difference = (value - origin) - shift;
    squares += difference * difference;
    rest += difference;
  }
  result.mean = origin + (shift + rest / n);
  if (values.size() > 1) result.sd = std::sqrt((squares - rest * rest / n) / (n - 1));
  return result;
}

ShrunkMean shrunk(const PriorMean& prior, const std::vector<double>& own) {
  assert(prior.weight > 0 && prior.sd >= 0);
  ShrunkMean result{prior, mean_and_spread(own), prior.mean, prior.sd};
  if (own.empty()) return result;
  const double n = static_cast<double>(own.size()), total = prior.weight + n;
  const double apart = result.own.mean - prior.mean;
  const double within = result.own.sd ? *result.own.sd * *result.own.sd * (n - 1) : 0;
  result.mean = prior.mean + apart * n / total;
  result.sd = std::sqrt(
      (prior.weight * prior.sd * prior.sd + within + prior.weight * n / total * apart * apart) / total);
  return result;
}

ShrunkShare shrunk(const PriorShare& prior, std::size_t hits, std::size_t trials) {
  assert(prior.weight > 0 && prior.share >= 0 && prior.share <= 1 && hits <= trials);
  ShrunkShare result{prior, trials, hits, std::nullopt, 0, 0};
  const double n = static_cast<double>(trials);
  if (trials > 0) result.own = static_cast<double>(hits) / n;
  result.share = (prior.weight * prior.share + static_cast<double>(hits)) / (prior.weight + n);
  // The variance of a beta distribution with these two counts.
  result.sd = std::sqrt(result.share * (1 - result.share) / (prior.weight + n + 1));
  return result;
}

ShrunkOdds shrunk(const std::vector<double>& prior, double weight, const std::vector<std::size_t>& counts) {
  const double sum = std::accumulate(prior.begin(), prior.end(), 0.0);
  assert(weight > 0 && prior.size() == counts.size() && sum > 0);
  ShrunkOdds result;
  result.weight = weight;
  result.counts = counts;
  result.cars = std::accumulate(counts.begin(), counts.end(), std::size_t{0});
  for (std::size_t i = 0; i < prior.size(); ++i) {
    result.prior.push_back(prior[i] / sum);
    result.share.push_back((weight * result.prior[i] + static_cast<double>(counts[i])) /
                           (weight + static_cast<double>(result.cars)));
  }
  return result;
}

Calibration calibration(const std::vector<double>& chances, const std::vector<bool>& lost) {
  assert(chances.size() == lost.size());
  Calibration result;
  result.cars = chances.size();
  if (chances.empty()) return result;
  std::vector<double> losses = {1};  // chance of 0, 1, 2 ... losses among the cars so far
  for (std::size_t i = 0; i < chances.size(); ++i) {
    const double outcome = lost[i] ? 1 : 0;
    result.expected += chances[i];
    result.losses += lost[i] ? 1 : 0;
    result.brier += (chances[i] - outcome) * (chances[i] - outcome) / static_cast<double>(chances.size());
    losses.push_back(0);
    for (std::size_t k = losses.size() - 1; k > 0; --k)
      losses[k] = losses[k] * (1 - chances[i]) + losses[k - 1] * chances[i];
    losses[0] *= 1 - chances[i];
  }
  const auto at = losses.begin() + static_cast<std::ptrdiff_t>(result.losses);
  result.so_many = std::min(1.0, std::accumulate(at, losses.end(), 0.0));
  result.so_few = std::min(1.0, std::accumulate(losses.begin(), at + 1, 0.0));
  return result;
}

}  // namespace nonrunner::resale

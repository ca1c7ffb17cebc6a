#include "appraisal/points.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "appraisal/chain.h"

namespace nonrunner::appraisal {

namespace {

// As many as have a chance of their own: one for each correction that can be the last one, one where none cures.
std::size_t ways_of(const Job& job, const Cause& cause) {
  const Chain chain = chain_of(job, cause);
  return std::max<std::size_t>(chain.steps.size() + (chain.fails > 0 ? 1 : 0), 1);
}

}  // namespace

std::size_t points_in_a_case(const Job& job, const Beliefs& beliefs, std::size_t points) {
  double ways = 0;
  for (std::size_t c = 0; c < job.causes.size(); ++c)
    if (beliefs.cause[c] > 0)
      ways +=
          std::ldexp(static_cast<double>(ways_of(job, job.causes[c])), static_cast<int>(job.troubles.size()));
  const auto wanted = static_cast<std::size_t>(static_cast<double>(points) / ways / 2);
  return std::bit_floor(std::clamp(wanted, std::min(points_min, points), points));
}

Points::Points(const Job& job, const std::vector<double>& chances, std::size_t all) : all_(all) {
  const std::size_t masks = std::size_t{1} << job.troubles.size();
  for (std::size_t c = 0; c < job.causes.size(); ++c) {
    const auto begin = chances.begin() + static_cast<std::ptrdiff_t>(c * masks);
    const auto possible = std::count_if(begin, begin + static_cast<std::ptrdiff_t>(masks),
                                        [](double chance) { return chance > 0; });
    ways_ += static_cast<std::size_t>(possible) * ways_of(job, job.causes[c]);
  }
  fewer_ = all <= points_min && ways_ > ways_in_full;
}

Stretch Points::of(double chance, std::size_t turn) const {
  if (!fewer_) return of_all();
  constexpr std::size_t together = ways_in_full * points_min / 2;
  const double wanted = std::clamp(chance * static_cast<double>(together), 1.0, static_cast<double>(all_));
  const std::size_t count =
      std::max(std::bit_ceil(static_cast<std::size_t>(std::ceil(wanted))), std::min(least, all_));
  return {turn * count % all_, count};
}

}  // namespace nonrunner::appraisal

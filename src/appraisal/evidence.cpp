#include "appraisal/evidence.h"

#include <cassert>

namespace nonrunner::appraisal {

Beliefs prior(const Job& job) {
  Beliefs beliefs;
  double odds = 0;
  for (const Cause& cause : job.causes) odds += cause.odds;
  for (const Cause& cause : job.causes) beliefs.cause.push_back(cause.odds / odds);
  for (const Trouble& trouble : job.troubles) beliefs.trouble.push_back(trouble.chance);
  return beliefs;
}

double chance_of(const Beliefs& beliefs, const Test& test, std::size_t outcome) {
  if (test.trouble) {
    const double present = beliefs.trouble[*test.trouble];
    return present * test.given[0][outcome] + (1 - present) * test.given[1][outcome];
  }
  double sum = 0;
  for (std::size_t c = 0; c < beliefs.cause.size(); ++c) sum += beliefs.cause[c] * test.given[c][outcome];
  return sum;
}

std::optional<Beliefs> after(const Beliefs& before, const Test& test, std::size_t outcome) {
  const double chance = chance_of(before, test, outcome);
  if (!(chance > 0)) return std::nullopt;
  Beliefs beliefs = before;
  if (test.trouble)
    beliefs.trouble[*test.trouble] *= test.given[0][outcome] / chance;
  else
    for (std::size_t c = 0; c < beliefs.cause.size(); ++c)
      beliefs.cause[c] *= test.given[c][outcome] / chance;
  return beliefs;
}

namespace {
std::optional<Beliefs> conditioned(const Job& job) {
  std::optional<Beliefs> beliefs = prior(job);
  for (const Test& test : job.tests)
    if (test.seen && !test.spoiled && beliefs) beliefs = after(*beliefs, test, *test.seen);
  return beliefs;
}
}  // namespace

bool can_be(const Job& job) { return conditioned(job).has_value(); }

Beliefs posterior(const Job& job) {
  auto beliefs = conditioned(job);
  assert(beliefs);
  return *beliefs;
}

double chance_of_troubles(const Beliefs& beliefs, unsigned present) {
  double chance = 1;
  for (std::size_t j = 0; j < beliefs.trouble.size(); ++j)
    chance *= present >> j & 1u ? beliefs.trouble[j] : 1 - beliefs.trouble[j];
  return chance;
}

bool still_to_make(const Test& test) { return !test.seen && !test.spoiled; }

}  // namespace nonrunner::appraisal

// What is believed about the causes and the troubles, and what a test's outcome makes of it (Bayes).
//
// Causes exclude each other; troubles are independent of the cause and of each other; tests are independent
// given the cause and the troubles. So beliefs stay a product: one chance for each cause, adding up to 1, and
// one for each trouble.
#pragma once
#include <optional>
#include <vector>

#include "appraisal/job.h"

namespace nonrunner::appraisal {

struct Beliefs {
  std::vector<double> cause;
  std::vector<double> trouble;
};

Beliefs prior(const Job&);
// The prior conditioned on every outcome seen of a test that is not spoiled. Precondition: can_be(job).
Beliefs posterior(const Job&);
// False where the outcomes seen have no chance together.
bool can_be(const Job&);

double chance_of(const Beliefs&, const Test&, std::size_t outcome);
// Absent where the outcome has no chance.
std::optional<Beliefs> after(const Beliefs&, const Test&, std::size_t outcome);

// The chance of the set of troubles in `present` (bit j: trouble j) under these beliefs.
double chance_of_troubles(const Beliefs&, unsigned present);

// Neither seen nor spoiled.
bool still_to_make(const Test&);

}  // namespace nonrunner::appraisal

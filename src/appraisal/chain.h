// What putting a cause right takes: its correction, and where that does not work the one that follows, and so
// on.
#pragma once
#include <vector>

#include "appraisal/job.h"

namespace nonrunner::appraisal {

struct CorrectionCost {
  std::vector<Source> sources;  // of its parts
  double cash = 0;              // expected, as everything here
  double hours = 0;             // own, by the estimate
  double cores = 0;
  double takes_off = 0;
};

// `cover`: the share that the seller bears; `interest`: a day's, on what is paid for the car. Both only move
// where the parts come from; the cost is that of the whole.
CorrectionCost cost_of(const Correction&, const Shop&, double cover = 0, double interest = 0);

// One correction of a chain: made with the chance `reached`, and the last one needed with the chance `cures`.
struct Step {
  std::size_t correction = 0;
  double reached = 1;
  double cures = 1;
};

struct Chain {
  std::vector<Step> steps;  // empty where the cause cannot be put right
  double fails = 0;         // chance that all were made and none worked
};

Chain chain_of(const Job&, const Cause&);

}  // namespace nonrunner::appraisal

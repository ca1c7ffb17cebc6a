// What a sound one sells for, as a distribution: three points, or whatever a fit of comparables predicts, cut
// off at zero.
#pragma once
#include <functional>
#include <optional>

#include "appraisal/job.h"
#include "chance/three_point.h"
#include "resale/comparables.h"

namespace nonrunner::appraisal {

struct SoundValue {
  double mean = 0;
  bool is_constant = true;
  std::function<double(double chance)> quantile;  // not asked of a constant; chance inside (0, 1)
  std::optional<ThreePoint> points;               // where it is given by these: then its table is made faster
  std::optional<resale::SoundValue> fit;          // where comparables say it

  static SoundValue of(const ThreePoint&);
  static SoundValue of(const resale::SoundValue&);
};

// What the job file says; `from_book` are comparables kept elsewhere that count beside the file's.
// Throws Refusal where there are too few comparables for what is believed about them.
SoundValue sound_value_of(const Job&, const std::vector<resale::Comparable>& from_book = {});

}  // namespace nonrunner::appraisal

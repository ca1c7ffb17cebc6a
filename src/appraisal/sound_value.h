// What a sound one sells for, as a distribution: three points, or whatever a fit of comparables predicts, cut
// off at zero.
#pragma once
#include <functional>
#include <optional>

#include "chance/three_point.h"

namespace nonrunner::appraisal {

struct SoundValue {
  double mean = 0;
  bool is_constant = true;
  std::function<double(double chance)> quantile;  // not asked of a constant; chance inside (0, 1)
  std::optional<ThreePoint> points;               // where it is given by these: then its table is made faster

  static SoundValue of(const ThreePoint& points) {
    return {points.mean(), points.is_constant(), [points](double chance) { return points.quantile(chance); },
            points};
  }
};

}  // namespace nonrunner::appraisal

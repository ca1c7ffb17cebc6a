#include "resale/own_amount.h"

#include <algorithm>
#include <cmath>

namespace nonrunner::resale {

OwnAmount own_amount(const OwnPrior& prior, const std::vector<double>& own, double least, double most) {
  const ThreePoint& p = prior.points;
  const double mean0 = p.mean(), sd0 = std::sqrt(p.variance());
  OwnAmount result{prior, shrunk(PriorMean{mean0, sd0, prior.weight}, own), p};
  if (own.empty()) return result;
  const double mean = result.figures.mean, sd = result.figures.sd;
  if (sd0 > 0) {
    const double scale = sd / sd0;
    result.points = {mean + (p.low - mean0) * scale, mean + (p.likely - mean0) * scale,
                     mean + (p.high - mean0) * scale};
  } else {
    // A constant has no shape to keep: an even one, whose variance is its half width squared over 7.
    result.points = {mean - std::sqrt(7.0) * sd, mean, mean + std::sqrt(7.0) * sd};
  }
  for (double* point : {&result.points.low, &result.points.likely, &result.points.high})
    *point = std::clamp(*point, least, most);
  return result;
}

}  // namespace nonrunner::resale

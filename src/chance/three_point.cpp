#include "chance/three_point.h"

#include <boost/math/special_functions/beta.hpp>

namespace nonrunner {

namespace {
// Working in long double would take ten times as long for digits that a double does not keep.
using InDouble = boost::math::policies::policy<boost::math::policies::promote_double<false>>;
}  // namespace

double ThreePoint::quantile(double chance) const {
  if (is_constant()) return low;
  if (chance <= 0) return low;
  if (chance >= 1) return high;
  return low + (high - low) * boost::math::ibeta_inv(alpha(), beta(), chance, InDouble());
}

}  // namespace nonrunner

#include "chance/three_point.h"

#include <boost/math/special_functions/beta.hpp>

namespace nonrunner {

double ThreePoint::quantile(double chance) const {
  if (is_constant()) return low;
  if (chance <= 0) return low;
  if (chance >= 1) return high;
  return low + (high - low) * boost::math::ibeta_inv(alpha(), beta(), chance);
}

}  // namespace nonrunner

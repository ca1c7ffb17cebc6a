#include "resale/student.h"

#include <boost/math/distributions/students_t.hpp>
#include <cassert>
#include <limits>

namespace nonrunner::resale {

namespace {
using Standard = boost::math::students_t_distribution<double>;
}

double Student::cdf(double x) const {
  assert(scale > 0 && df > 0);
  return boost::math::cdf(Standard(df), (x - location) / scale);
}

double Student::quantile(double chance) const {
  assert(scale > 0 && df > 0 && chance > 0 && chance < 1);
  return location + scale * boost::math::quantile(Standard(df), chance);
}

double Student::quantile_above_zero(double chance) const {
  assert(scale > 0 && df > 0 && chance > 0 && chance < 1);
  const Standard standard(df);
  // The chance of more than the quantile, from the upper side: near 1 nothing cancels.
  const double above = (1 - chance) * boost::math::cdf(complement(standard, -location / scale));
  return location + scale * boost::math::quantile(complement(standard, above));
}

double Student::mean_above_zero() const {
  if (df <= 1) return std::numeric_limits<double>::infinity();
  const Standard standard(df);
  const double cut = -location / scale;
  // The integral of t f(t) from c up is f(c) (df + c^2) / (df - 1): differentiate to see it.
  const double part = boost::math::pdf(standard, cut) * (df + cut * cut) / (df - 1);
  return location + scale * part / boost::math::cdf(complement(standard, cut));
}

}  // namespace nonrunner::resale

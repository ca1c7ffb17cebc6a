#include "figures/opinion.h"

#include <cmath>

#include "exact/ends.h"

namespace nonrunner {

Money in_money(double units, const Currency& currency) {
  const double minor = std::round(units * std::pow(10.0, currency.digits));
  if (!(std::abs(minor) <= static_cast<double>(Money::limit)))
    throw Refusal("an amount is beyond what can be shown, expected at most 10^15 minor units");
  return Money::of_minor(static_cast<std::int64_t>(minor));
}

double in_units(Money money, const Currency& currency) {
  return static_cast<double>(money.minor()) / std::pow(10.0, currency.digits);
}

std::string shown_units(double units, const Currency& currency) {
  return in_money(units, currency).shown(currency);
}
std::string plain_units(double units, const Currency& currency) {
  return in_money(units, currency).plain(currency);
}

}  // namespace nonrunner

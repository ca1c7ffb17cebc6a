#include "figures/opinion.h"

#include <cmath>

#include "exact/ends.h"

namespace nonrunner {

namespace {
double minor_units(const Currency& currency) { return std::pow(10.0, currency.digits); }

std::int64_t rounded(double value, std::int64_t limit) {
  const double whole = std::round(value);
  if (!(std::abs(whole) <= static_cast<double>(limit)))
    throw Refusal("an expected amount is beyond what money can be, expected at most " +
                  std::to_string(Money::limit) +
                  " minor units; look for figures that are far too large in the job file");
  return static_cast<std::int64_t>(whole);
}
}  // namespace

Money in_money(double units, const Currency& currency) {
  return Money::of_minor(rounded(units * minor_units(currency), Money::limit));
}

Price in_price(double units, const Currency& currency) {
  return Price::of_fine(rounded(units * minor_units(currency) * 1000, Money::limit * 1000));
}

double in_units(Money money, const Currency& currency) {
  return static_cast<double>(money.minor()) / minor_units(currency);
}

std::string shown_units(double units, const Currency& currency) {
  return in_money(units, currency).shown(currency);
}
std::string plain_units(double units, const Currency& currency) {
  return in_money(units, currency).plain(currency);
}

}  // namespace nonrunner

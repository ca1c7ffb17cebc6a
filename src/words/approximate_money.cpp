#include "words/approximate_money.h"

#include <cmath>

#include "exact/ends.h"
#include "exact/money.h"

namespace nonrunner::words {

namespace {
Money rounded(double amount, const Currency& currency) {
  if (!(std::abs(amount) < 1e12))
    throw Refusal(
        "an expected amount is beyond what money can be, expected below 1,000,000,000,000; check the job "
        "file for figures that are far too large");
  return Money::of_minor(std::llround(amount * std::pow(10.0, currency.digits)));
}
}  // namespace

std::string plain_money(double amount, const Currency& currency) {
  return rounded(amount, currency).plain(currency);
}
std::string shown_money(double amount, const Currency& currency) {
  return rounded(amount, currency).shown(currency);
}

}  // namespace nonrunner::words

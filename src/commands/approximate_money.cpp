#include "commands/approximate_money.h"

#include <cmath>

#include "exact/money.h"

namespace nonrunner::commands {

namespace {
Money rounded(double amount, const Currency& currency) {
  return Money::of_minor(std::llround(amount * std::pow(10.0, currency.digits)));
}
}  // namespace

std::string plain_money(double amount, const Currency& currency) {
  return rounded(amount, currency).plain(currency);
}
std::string shown_money(double amount, const Currency& currency) {
  return rounded(amount, currency).shown(currency);
}

}  // namespace nonrunner::commands

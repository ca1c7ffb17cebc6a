#include "reports/formula.h"

#include <fmt/format.h>

#include <algorithm>

namespace nonrunner::reports::formula {

std::string rounded(const std::string& formula, int digits) {
  return "ROUND(" + formula + "," + std::to_string(digits) + ")";
}

std::string rounded(const std::string& formula, const Currency& currency) {
  return rounded(formula, currency.digits);
}

std::string sum(const std::string& range, const Currency& currency) {
  return rounded("SUM(" + range + ")", currency);
}

namespace {
std::string before_commission(const std::string& costs, const std::string& rate, const Currency& currency) {
  return rounded(rounded(costs, currency) + "/(1-" + rate + ")", currency.digits + 6);
}
}  // namespace

std::string price_for(const std::string& costs, const std::string& rate, const Currency& currency) {
  return "MAX(0,ROUNDUP(" + before_commission(costs, rate, currency) + "," + std::to_string(currency.digits) +
         "))";
}

Money price_for(Money costs, const Rate& rate) { return std::max(Money{}, rate.grossed_up(costs)); }

std::string not_recovered(const std::string& costs, const std::string& rate, const Currency& currency) {
  const std::string exact = before_commission(costs, rate, currency);
  const std::string digits = "," + std::to_string(currency.digits) + ")";
  return "IF(" + exact + "<0,ROUNDDOWN(" + exact + digits + ",ROUNDUP(" + exact + digits + ")";
}

std::string direction(const std::string& of, const std::string& zero) {
  return "IF(" + of + "=0,\"" + zero + "\",IF(" + of + "<0,\"less\",\"more\"))";
}

std::string when_priced(const std::string& price, const std::string& formula) {
  return "IF(ISNUMBER(" + price + ")," + formula + ",\"\")";
}

std::string literal(double number) { return fmt::format("{}", number); }

}  // namespace nonrunner::reports::formula

#include "appraisal/read_amount.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "exact/ends.h"

namespace nonrunner::appraisal {

namespace {

constexpr double largest = 1e12;  // beyond this a typing error is likelier than a car
constexpr const char* largest_in_words = "at most 1,000,000,000,000";

bool is_number(const Value& value) {
  return value.kind == Value::Kind::whole || value.kind == Value::Kind::real;
}

bool is_too_large(const Value& value) {
  return (is_number(value) && value.real > largest) ||
         std::any_of(value.items.begin(), value.items.end(), is_too_large);
}

// What is wrong with a number that is far too large is its size, whatever else was expected.
std::string expected_instead_of(const Value& found, const std::string& expected) {
  return is_too_large(found) ? std::string(largest_in_words) : expected;
}

[[noreturn]] void refuse_at(const Table& table, std::string_view key, const Value& found,
                            const std::string& expected) {
  throw Refusal(fmt::format("{}:{}: \"{}\" in {} is {}, expected {}", table.file(), found.line, key,
                            table.name(), found.shown(), expected_instead_of(found, expected)));
}

std::string money_expected(const Currency& currency) {
  return currency.digits == 0 ? fmt::format("an amount of 0 or more in whole {}", currency.code)
                              : fmt::format("an amount of 0 or more in {} with at most {} decimals",
                                            currency.code, currency.digits);
}

Amount read(const Table& table, std::string_view key, const Value& value, const std::string& expected,
            const std::function<bool(const Value&)>& fits) {
  const std::string or_three = expected + ", or three points [low, likely, high] of such";
  if (value.kind != Value::Kind::array) {
    if (!fits(value)) refuse_at(table, key, value, or_three);
    return Amount::constant(value.real);
  }
  if (value.items.size() != 3) refuse_at(table, key, value, or_three);
  for (const Value& item : value.items)
    if (!fits(item)) refuse_at(table, key, value, or_three);
  const Amount amount{value.items[0].real, value.items[1].real, value.items[2].real};
  if (amount.low > amount.likely || amount.likely > amount.high)
    refuse_at(table, key, value, "three points in rising order, low <= likely <= high");
  return amount;
}

}  // namespace

bool is_money(const Value& value, const Currency& currency) {
  if (!is_number(value) || value.real < 0 || value.real > largest) return false;
  return scaled(value.text, currency.digits).has_value();
}

Amount money_amount(const Table& table, std::string_view key, const Currency& currency) {
  const std::string expected = money_expected(currency);
  return read(table, key, table.need(key, expected + ", or three points [low, likely, high] of such"),
              expected, [&](const Value& v) { return is_money(v, currency); });
}

Amount money_amount_or_zero(const Table& table, std::string_view key, const Currency& currency) {
  return table.has(key) ? money_amount(table, key, currency) : Amount{};
}

Amount amount_in(const Table& table, std::string_view key, const Value& value, const std::string& what) {
  return read(table, key, value, "a number of " + what + ", 0 or more",
              [](const Value& v) { return is_number(v) && v.real >= 0 && v.real <= largest; });
}

Amount amount_of(const Table& table, std::string_view key, const std::string& what) {
  return amount_in(
      table, key,
      table.need(key, "a number of " + what + ", 0 or more, or three points [low, likely, high] of such"),
      what);
}

Amount amount_of_or_zero(const Table& table, std::string_view key, const std::string& what) {
  return table.has(key) ? amount_of(table, key, what) : Amount{};
}

double money_number(const Table& table, std::string_view key, const Currency& currency) {
  const std::string expected = money_expected(currency);
  const Value& value = table.need(key, expected);
  if (!is_money(value, currency)) table.refuse(key, expected_instead_of(value, expected));
  return value.real;
}

double number_from(const Table& table, std::string_view key, double least, const std::string& expected) {
  const Value& value = table.need(key, expected);
  if (!is_number(value) || value.real < least || value.real > largest)
    table.refuse(key, expected_instead_of(value, expected));
  return value.real;
}

double number_above(const Table& table, std::string_view key, double bound, const std::string& expected) {
  const double number = number_from(table, key, bound, expected);
  if (number <= bound) table.refuse(key, expected);
  return number;
}

double share(const Table& table, std::string_view key) {
  const double number = number_from(table, key, 0, "a share from 0 to 1");
  if (number > 1) table.refuse(key, "a share from 0 to 1");
  return number;
}

double share_or(const Table& table, std::string_view key, double fallback) {
  return table.has(key) ? share(table, key) : fallback;
}

double rate_or_zero(const Table& table, std::string_view key) {
  if (!table.has(key)) return 0;
  const double number =
      number_from(table, key, 0, "a fraction of 0 or more and below 1, such as 0.065 for 6.5 %");
  if (number >= 1) table.refuse(key, "a fraction of 0 or more and below 1, such as 0.065 for 6.5 %");
  return number;
}

}  // namespace nonrunner::appraisal

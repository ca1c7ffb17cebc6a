#include "commands/typed_forms.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "exact/decimal.h"
#include "exact/ends.h"
#include "text/lower_case.h"
#include "text/typed_hours.h"
#include "text/typed_numbers.h"
#include "words/weekday.h"

namespace nonrunner::commands {

namespace {

// A number in its parts: "-$12.50" is "-", "$" and "12.50"; the sign of money may stand before the minus too, or at the
// end: "12.50 $".
struct Signed {
  std::string minus, money, digits;
};

Signed signs_of(std::string text) {
  static const std::array<std::string, 3> signs{"$", "\u20ac", "\u00a3"};
  Signed parts;
  const auto take_money = [&] {
    for (const std::string& sign : signs)
      if (parts.money.empty() && text.starts_with(sign)) {
        parts.money = sign;
        text.erase(0, sign.size());
      }
  };
  take_money();
  if (text.starts_with('-')) {
    parts.minus = "-";
    text.erase(0, 1);
    take_money();
  }
  for (const std::string& sign : signs)
    if (parts.money.empty() && text.ends_with(sign)) {
      parts.money = sign;
      text.erase(text.size() - sign.size());
      while (text.ends_with(' ')) text.pop_back();
    }
  parts.digits = text;
  return parts;
}

// Whether the currency is written with the sign: from memory.
bool bears(const std::string& sign, const Currency& currency) {
  if (sign.empty()) return true;
  if (sign == "\u20ac") return currency.code == "EUR";
  if (sign == "\u00a3")
    return currency.code == "GBP" || currency.code == "GIP" || currency.code == "FKP" ||
           currency.code == "SHP" || currency.code == "EGP" || currency.code == "SYP";
  static const std::string with_dollar =
      "ARS AUD BBD BMD BND BRL BSD BZD CAD CLP COP CUP CVE DOP FJD GYD HKD JMD KYD LRD MOP MXN NAD NIO NZD "
      "SBD SGD SRD TOP TTD TWD USD UYU WST XCD";
  return with_dollar.find(currency.code) != std::string::npos;
}

// The number without its sign of money, which has to be one of this currency.
std::string in_currency(const std::string& typed, const Currency& currency) {
  const Signed parts = signs_of(typed);
  if (parts.digits.empty() || parts.digits[0] < '0' || parts.digits[0] > '9') {
    // ".75" and ",50" begin with their mark; anything else is no amount, and its reader says so.
    if (parts.digits.empty() || (parts.digits[0] != '.' && parts.digits[0] != ',')) return typed;
  }
  if (!bears(parts.money, currency))
    throw Refusal(
        fmt::format("found \"{}\" in a book that is kept in {}, expected an amount in {}; what was "
                    "paid in other money is entered at what it cost in {}",
                    typed, currency.code, currency.code, currency.code));
  return parts.minus + parts.digits;
}

constexpr std::array<const char*, 7> weekdays = {"sunday",   "monday", "tuesday", "wednesday",
                                                 "thursday", "friday", "saturday"};

std::optional<unsigned> weekday_of(const std::string& typed) {
  if (typed.size() < 3) return std::nullopt;
  for (unsigned i = 0; i < weekdays.size(); ++i)
    if (std::string(weekdays[i]).starts_with(typed)) return i;
  return std::nullopt;
}

// The nearest day that fits, today counted; nothing within nine years (29 February comes every eighth at the latest).
template <class Fits>
std::optional<Day> nearest_day(Day today, Looks looks, Fits fits) {
  const int step = looks == Looks::back ? -1 : 1;
  for (int i = 0; i < 9 * 366; ++i)
    if (const Day day = today.plus(step * i); fits(day)) return day;
  return std::nullopt;
}

// "2026-5-2" as "2026-05-02".
std::optional<std::string> filled(const std::string& typed) {
  const auto parts = parted(typed, '-');
  if (parts.size() != 3 || parts[0].size() != 4) return std::nullopt;
  for (const std::string& part : parts)
    if (!all_digits(part)) return std::nullopt;
  if (parts[1].size() > 2 || parts[2].size() > 2) return std::nullopt;
  return fmt::format("{}-{:0>2}-{:0>2}", parts[0], parts[1], parts[2]);
}

std::optional<Day> day_and_month(const std::string& typed, Day today, Looks looks) {
  const auto parts = parted(typed, '-');
  if (parts.size() != 2 || !all_digits(parts[0]) || !all_digits(parts[1]) || parts[0].size() > 2 ||
      parts[1].size() > 2)
    return std::nullopt;
  const unsigned month = static_cast<unsigned>(std::stoi(parts[0])),
                 day = static_cast<unsigned>(std::stoi(parts[1]));
  return nearest_day(today, looks,
                     [&](Day each) { return each.month() == month && each.day_of_month() == day; });
}

// "3d": so many days from today, the way that it looks; "-3": so many days ago.
std::optional<Day> so_many_days(const std::string& typed, Day today, Looks looks) {
  const bool ago = typed.starts_with('-');
  if (!ago && !typed.ends_with('d')) return std::nullopt;
  const std::string number = ago ? typed.substr(1) : typed.substr(0, typed.size() - 1);
  if (!all_digits(number) || number.size() > 4) return std::nullopt;
  return today.plus(std::stoi(number) * (ago || looks == Looks::back ? -1 : 1));
}

}  // namespace

std::string plain_number(const std::string& typed) {
  const bool below = typed.starts_with('-');
  const std::string text = below ? typed.substr(1) : typed;
  if (may_be_thousands(text, ',')) {
    const auto parts = parted(text, ',');
    throw Refusal(fmt::format("found \"{}\", which may be {}{} or {}.{}; write one of them", typed, parts[0],
                              parts[1], parts[0], parts[1]));
  }
  return number_as_in_file(typed);
}

std::string plain_money(const std::string& typed, const Currency& currency) {
  const std::string amount = in_currency(typed, currency);
  expect_one_reading(signs_of(amount).digits, typed, currency.digits);
  return plain_number(amount);
}

Money typed_money(const std::string& typed, const Currency& currency) {
  return Money::parse(plain_money(typed, currency), currency);
}

Price typed_price(const std::string& typed, const Currency& currency) {
  return Price::parse(plain_number(in_currency(typed, currency)), currency);
}

std::string plain_hours(const std::string& typed) {
  if (const auto found = hours_and_minutes(typed)) return found->shown();
  if (typed.size() > 1 && typed.back() == 'h') return plain_number(typed.substr(0, typed.size() - 1));
  return plain_number(typed);
}

bool is_number_typed(const std::string& typed) {
  try {
    const Signed parts = signs_of(typed);
    const std::string digits = plain_hours(parts.digits);
    return !digits.empty() && digits.find_first_not_of("0123456789.,") == std::string::npos &&
           digits[0] != ',' && digits[0] != '.';
  } catch (const Refusal&) {
    return true;  // a number, if one that can be read in two ways
  }
}

Day typed_day(const std::string& typed, Day today, Looks looks) {
  const std::string text = lower_case(typed);
  if (text == "today") return today;
  if (text == "yesterday") return today.plus(-1);
  if (text == "tomorrow") return today.plus(1);
  if (const auto weekday = weekday_of(text))
    return *nearest_day(today, looks, [&](Day day) { return words::weekday_number(day) == *weekday; });
  if (all_digits(text) && text.size() <= 2) {
    const unsigned number = static_cast<unsigned>(std::stoi(text));
    if (const auto day = nearest_day(today, looks, [&](Day each) { return each.day_of_month() == number; }))
      return *day;
  }
  if (const auto day = day_and_month(text, today, looks)) return *day;
  if (const auto day = so_many_days(text, today, looks)) return *day;
  const auto whole = filled(text);
  const auto parts = parted(whole.value_or(typed), '-');
  if (parts.size() != 3 ||
      !std::all_of(parts.begin(), parts.end(), [](const auto& part) { return all_digits(part); }))
    throw Refusal(
        fmt::format("found \"{}\", expected a day, such as fri, 14, 02-14, 3d or 2026-05-02", typed));
  return Day::parse(whole.value_or(typed));
}

Day typed_last_day(const std::string& typed, Day today, Day of_paper) {
  const bool of_calendar =
      !typed.starts_with('-') && typed.find_first_not_of("0123456789-") == std::string::npos;
  return typed_day(typed, of_calendar ? of_paper : today, Looks::forward);
}

}  // namespace nonrunner::commands

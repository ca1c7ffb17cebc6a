#include "text/typed_numbers.h"

#include <fmt/format.h>

#include <algorithm>

#include "exact/ends.h"

namespace nonrunner {

namespace {

std::optional<std::int64_t> whole(std::string_view typed, std::size_t digits_most) {
  if (typed.empty() || typed.size() > digits_most) return std::nullopt;
  std::int64_t number = 0;
  for (const char c : typed) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + (c - '0');
  }
  return number;
}

}  // namespace

std::optional<std::int64_t> typed_entry(std::string_view typed) {
  const auto number = whole(typed, 9);
  return number && *number > 0 ? number : std::nullopt;
}

std::optional<int> typed_year(std::string_view typed) {
  const auto year = whole(typed, 4);
  return year && *year >= 1900 && *year <= 9998 ? std::optional(static_cast<int>(*year)) : std::nullopt;
}

bool all_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::vector<std::string> parted(std::string_view text, char by) {
  std::vector<std::string> parts{""};
  for (const char c : text)
    if (c == by)
      parts.emplace_back();
    else
      parts.back() += c;
  return parts;
}

std::optional<std::string> decimal_comma(std::string_view text) {
  const auto halves = parted(text, ',');
  if (halves.size() != 2 || !all_digits(halves[1])) return std::nullopt;
  const auto groups = parted(halves[0], '.');
  std::string whole;
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const bool fits = i == 0 ? groups.size() == 1 || groups[i].size() <= 3 : groups[i].size() == 3;
    if ((!groups[i].empty() || groups.size() > 1) && (!all_digits(groups[i]) || !fits)) return std::nullopt;
    whole += groups[i];
  }
  return (whole.empty() ? "0" : whole) + "." + halves[1];
}

std::optional<std::string> thousands_with_point(std::string_view text) {
  const auto halves = parted(text, '.');
  if (halves.size() != 2 || !all_digits(halves[1])) return std::nullopt;
  const auto groups = parted(halves[0], ',');
  if (groups.size() < 2 || groups[0].size() > 3 || !all_digits(groups[0])) return std::nullopt;
  std::string whole = groups[0];
  for (std::size_t i = 1; i < groups.size(); ++i) {
    if (groups[i].size() != 3 || !all_digits(groups[i])) return std::nullopt;
    whole += groups[i];
  }
  return whole + "." + halves[1];
}

std::string number_as_in_file(const std::string& typed) {
  const bool below = typed.starts_with('-');
  const std::string sign = below ? "-" : "", text = below ? typed.substr(1) : typed;
  if (may_be_thousands(text, ',')) return typed;
  if (const auto decimal = decimal_comma(text)) return sign + *decimal;
  if (const auto whole = thousands_with_point(text)) return sign + *whole;
  if (text.size() > 1 && text[0] == '.' && all_digits(text.substr(1))) return sign + "0" + text;
  return typed;
}

bool may_be_thousands(std::string_view text, char mark) {
  const auto parts = parted(text, mark);
  return parts.size() == 2 && all_digits(parts[0]) && parts[0].size() <= 3 && parts[0][0] != '0' &&
         all_digits(parts[1]) && parts[1].size() == 3;
}

void expect_one_reading(std::string_view digits, std::string_view typed, int decimals) {
  const char mark = digits.find(',') == std::string_view::npos ? '.' : ',';
  if (decimals >= 3 || !may_be_thousands(digits, mark)) return;
  const auto parts = parted(digits, mark);
  const int hundredths = (std::stoi(parts[0] + parts[1]) + 5) / 10;  // to the nearest
  throw Refusal(
      fmt::format("found \"{}\", which may be {}{} or {}.{}; write {}{} or {}", typed, parts[0], parts[1],
                  parts[0], parts[1], parts[0], parts[1],
                  decimals == 0 ? parts[0] : fmt::format("{}.{:02}", hundredths / 100, hundredths % 100)));
}

}  // namespace nonrunner

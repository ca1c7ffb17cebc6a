#include "text/table.h"

#include <fmt/format.h>

#include <cmath>

#include "exact/ends.h"
#include "exact/nearest.h"
#include "text/typed_hours.h"

namespace nonrunner {

Table::Table(const Value& value, std::string file, std::string name)
    : value_(&value), file_(std::move(file)), name_(std::move(name)) {}

std::string Table::place(std::string_view key) const {
  const Value* found = key.empty() ? nullptr : find(key);
  const int line = found ? found->line : value_->line;
  return line > 0 ? fmt::format("{}:{}", file_, line) : file_;
}

void Table::refuse(std::string_view key, std::string_view expected) const {
  const Value* found = find(key);
  if (!found) throw Refusal(fmt::format("{}: {} has no \"{}\", expected {}", place(), name_, key, expected));
  throw Refusal(
      fmt::format("{}: \"{}\" in {} is {}, expected {}", place(key), key, name_, found->shown(), expected));
}

void Table::refuse_whole(std::string_view what, std::string_view key) const {
  throw Refusal(fmt::format("{}: {}", place(key), what));
}

void Table::only(const std::vector<std::string>& known) const {
  for (const auto& [key, value] : value_->entries) {
    bool is_known = false;
    for (const std::string& each : known) is_known = is_known || each == key;
    if (is_known) continue;
    std::string hint = did_you_mean(key, known);
    if (hint.empty()) {
      hint = "; known here:";
      for (const std::string& each : known) hint += " " + each;
    }
    Value shown;
    shown.kind = Value::Kind::text;
    shown.text = key;
    throw Refusal(
        fmt::format("{}:{}: unknown key {} in {}{}", file_, value.line, shown.shown(), name_, hint));
  }
}

const Value& Table::need(std::string_view key, std::string_view expected) const {
  const Value* found = find(key);
  if (!found) refuse(key, expected);
  return *found;
}

std::string Table::text(std::string_view key) const {
  const Value& value = need(key, "a text in quotes");
  if (value.kind != Value::Kind::text || value.text.empty()) refuse(key, "a text in quotes");
  return value.text;
}

std::string Table::text_or(std::string_view key, std::string fallback) const {
  const Value* value = find(key);
  if (!value) return fallback;
  if (value->kind != Value::Kind::text) refuse(key, "a text in quotes");
  return value->text;
}

double Table::number(std::string_view key) const {
  const Value& value = need(key, "a number");
  if (value.kind != Value::Kind::whole && value.kind != Value::Kind::real) refuse(key, "a number");
  return value.real;
}

double Table::number_or(std::string_view key, double fallback) const {
  return has(key) ? number(key) : fallback;
}

int Table::whole(std::string_view key, int least, int most) const {
  const std::string expected = fmt::format("a whole number from {} to {}", least, most);
  const Value& value = need(key, expected);
  if (value.kind != Value::Kind::whole || value.real < least || value.real > most) refuse(key, expected);
  return static_cast<int>(value.real);
}

bool Table::flag_or(std::string_view key, bool fallback) const {
  const Value* value = find(key);
  if (!value) return fallback;
  if (value->kind != Value::Kind::flag) refuse(key, "true or false");
  return value->flag;
}

Day Table::day(std::string_view key) const {
  constexpr auto expected = "a day written YYYY-MM-DD without quotes, such as 2026-05-02";
  const Value& value = need(key, expected);
  if (value.kind != Value::Kind::day) refuse(key, expected);
  return value.day;
}

std::optional<Day> Table::day_if(std::string_view key) const {
  return has(key) ? std::optional(day(key)) : std::nullopt;
}

namespace {
// The number at `key` read by `read`; the message of a refused text becomes one about this place.
template <class Read>
auto number_as(const Table& table, std::string_view key, std::string_view expected, Read read) {
  const Value& value = table.need(key, expected);
  if (value.kind != Value::Kind::whole && value.kind != Value::Kind::real) table.refuse(key, expected);
  try {
    return read(value.text);
  } catch (const Refusal&) {
    table.refuse(key, expected);
  }
}
}  // namespace

Money Table::money(std::string_view key, const Currency& currency) const {
  const std::string expected =
      currency.digits == 0
          ? "an amount of money in whole " + currency.code
          : fmt::format("an amount of money in {} with at most {} decimals", currency.code, currency.digits);
  return number_as(*this, key, expected,
                   [&](const std::string& text) { return Money::parse(text, currency); });
}

Price Table::price(std::string_view key, const Currency& currency) const {
  return number_as(*this, key, fmt::format("a price for one with at most {} decimals", currency.digits + 3),
                   [&](const std::string& text) { return Price::parse(text, currency); });
}

Quantity Table::quantity(std::string_view key) const {
  return number_as(*this, key, "a number of pieces with at most 3 decimals",
                   [](const std::string& text) { return Quantity::parse(text); });
}

Hours Table::hours(std::string_view key) const {
  // A form has hours and minutes as they were typed.
  if (const Value* value = find(key); value && value->kind == Value::Kind::text)
    if (const auto hours = hours_and_minutes(value->text)) return *hours;
  return number_as(*this, key, "a number of hours with at most 3 decimals",
                   [](const std::string& text) { return Hours::parse(text); });
}

Distance Table::distance(std::string_view key) const {
  return number_as(*this, key, "a distance with at most 3 decimals",
                   [](const std::string& text) { return Distance::parse(text); });
}

std::vector<std::string> Table::texts(std::string_view key) const {
  constexpr auto expected = "a list of texts in quotes";
  const Value& value = need(key, expected);
  if (value.kind != Value::Kind::array) refuse(key, expected);
  std::vector<std::string> all;
  for (const Value& item : value.items) {
    if (item.kind != Value::Kind::text || item.text.empty()) refuse(key, expected);
    all.push_back(item.text);
  }
  return all;
}

std::vector<Table> Table::tables(std::string_view key, const std::string& each) const {
  const Value* value = find(key);
  if (!value) return {};
  if (value->kind != Value::Kind::array) refuse(key, "a list of tables, " + each);
  std::vector<Table> all;
  for (const Value& item : value->items) {
    if (item.kind != Value::Kind::table) refuse(key, "a list of tables, " + each);
    all.emplace_back(item, file_, each);
  }
  return all;
}

std::optional<Table> Table::table(std::string_view key, const std::string& name) const {
  const Value* value = find(key);
  if (!value) return std::nullopt;
  if (value->kind != Value::Kind::table) refuse(key, "a table, " + name);
  return Table(*value, file_, name);
}

}  // namespace nonrunner

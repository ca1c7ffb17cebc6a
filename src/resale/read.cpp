#include "resale/read.h"

#include <fmt/format.h>

#include "exact/ends.h"
#include "figures/opinion.h"
#include "resale/keys.h"

namespace nonrunner::resale {

namespace {

double grade_of(const Table& table) {
  constexpr auto expected = "a grade from 1 (rough) to 5 (spotless)";
  if (!table.has("grade")) return 3;
  const Value& value = table.need("grade", expected);
  const bool number = value.kind == Value::Kind::whole || value.kind == Value::Kind::real;
  if (!number || !(value.real >= 1 && value.real <= 5)) table.refuse("grade", expected);
  return value.real;
}

double odometer_of(const Table& table) {
  const Distance odometer = table.distance("odometer");
  if (odometer < Distance{}) table.refuse("odometer", "a distance of 0 or more");
  return odometer.approximately();
}

double year_of(const Table& table) { return table.whole("year", 1886, 2200); }

Comparable comparable_of(const Table& table, const Currency& currency) {
  table.only(names_of(comparable_keys().keys));
  Comparable result;
  const Money price = table.money("price", currency);
  if (!(price > Money{})) table.refuse("price", "an amount above 0");
  result.price = in_units(price, currency);
  const std::string kind = table.text("kind");
  if (kind != "asking" && kind != "sold") table.refuse("kind", "\"asking\" or \"sold\"");
  result.kind = kind == "sold" ? Kind::sold : Kind::asking;
  result.odometer = odometer_of(table);
  result.year = year_of(table);
  result.grade = grade_of(table);
  table.text_or("note", "");
  const std::string place = table.has("book")
                                ? fmt::format("{} of the book", table.whole("book", 1, 2147483647))
                                : fmt::format("at line {}", table.value().line);
  result.name = called(place, price, currency, table.distance("odometer"), table.day_if("date"));
  return result;
}

// The pair at `key`, or nothing where it says "flat".
std::optional<std::pair<double, double>> pair_or_flat(const Table& table, std::string_view key,
                                                      std::string_view expected) {
  const Value& value = table.need(key, expected);
  if (value.kind == Value::Kind::text && value.text == "flat") return std::nullopt;
  const auto number = [](const Value& v) {
    return (v.kind == Value::Kind::whole || v.kind == Value::Kind::real) && std::isfinite(v.real);
  };
  if (value.kind != Value::Kind::array || value.items.size() != 2 || !number(value.items[0]) ||
      !number(value.items[1]) || !(value.items[1].real > 0))
    table.refuse(key, expected);
  return std::pair(value.items[0].real, value.items[1].real);
}

SlopePriors priors_of(const Table& value) {
  SlopePriors priors;
  const Value* slopes = value.find("slopes");
  if (!slopes) return priors;
  if (slopes->kind == Value::Kind::text) {
    if (slopes->text != "flat")
      value.refuse("slopes", "\"flat\" or a table with odometer, year, grade, spread");
    return SlopePriors::flat();
  }
  const Table table = *value.table("slopes", "[value.slopes]");
  table.only(names_of(slope_keys().keys));
  const auto slope = [&](std::string_view key, std::optional<Belief>& belief) {
    if (!table.has(key)) return;
    const auto pair =
        pair_or_flat(table, key, "[share of the median price, give or take above 0] or \"flat\"");
    belief = pair ? std::optional(Belief{pair->first, pair->second}) : std::nullopt;
  };
  slope("odometer", priors.odometer);
  slope("year", priors.year);
  slope("grade", priors.grade);
  if (table.has("spread")) {
    constexpr auto expected =
        "[share of the median price above 0, number of cars it counts for above 0] or \"flat\"";
    const auto pair = pair_or_flat(table, "spread", expected);
    if (pair && !(pair->first > 0)) table.refuse("spread", expected);
    priors.spread = pair ? std::optional(Spread{pair->first, pair->second}) : std::nullopt;
  } else if (!priors.odometer && !priors.year && !priors.grade) {
    priors.spread = std::nullopt;
  }
  return priors;
}

}  // namespace

std::string called(const std::string& place, Money price, const Currency& currency, Distance odometer,
                   std::optional<Day> seen) {
  return fmt::format("comparable {}, {} at {}{}", place, price.shown(currency), odometer.shown(),
                     seen ? " of " + seen->iso() : "");
}

std::optional<Basis> read_basis(const Table& root, const Currency& currency) {
  const std::optional<Table> value = root.table("value", "[value]");
  const bool sound = value && value->has("sound");
  Basis basis;
  for (const Table& row : root.tables("comparable", "[[comparable]]"))
    basis.comparables.push_back(comparable_of(row, currency));
  if (value && value->has("from")) {
    const std::string from = value->text("from");
    if (from != "book" && from != "rows")
      value->refuse("from", "\"book\", or \"rows\" for those of the file alone");
    basis.from_book = from == "book";
  }
  if (sound) {
    if (!basis.comparables.empty())
      value->refuse_whole(
          "[value] has \"sound\" and the file has [[comparable]] rows, expected one of the two", "sound");
    grade_of(*value);
    for (const char* key : {"from", "slopes"})
      if (value->has(key))
        value->refuse_whole(
            fmt::format("[value] has \"sound\", so \"{}\" for comparables would do nothing; leave one out",
                        key),
            key);
    return std::nullopt;
  }
  if (basis.comparables.empty() && !basis.from_book) {
    constexpr auto what =
        "nothing says what a sound one sells for, expected [value] sound = [low, likely, high] or "
        "[[comparable]] rows";
    if (value) value->refuse_whole(what);
    root.refuse_whole(what);
  }
  const std::optional<Table> vehicle = root.table("vehicle", "[vehicle]");
  if (!vehicle) root.refuse("vehicle", "a table [vehicle] with year and odometer");
  basis.subject = {odometer_of(*vehicle), year_of(*vehicle), value ? grade_of(*value) : 3};
  if (value) basis.priors = priors_of(*value);
  return basis;
}

}  // namespace nonrunner::resale
